/**
 * Proposals: corrections that providers offer, judged by running the same checks over an overlay of the image, ranked, combined, kept as
 * files and exported. Nothing here writes to an image.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("1.0.0")
package sectorglass.recovery.propose;
