/**
 * Tests of files by their content. Decoders and unpackers are those of the platform and of well-kept libraries; where there is none, the
 * structure is walked. Sources: the standards named at each class. Nothing here is exported.
 */
package sectorglass.filetest;
