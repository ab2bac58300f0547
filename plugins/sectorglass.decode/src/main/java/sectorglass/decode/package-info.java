/**
 * Kaitai Struct specs run over windows of an image: field trees with absolute positions, whatever is damaged.
 *
 * <p>A {@link sectorglass.decode.FormatCatalogue} knows the specs of all bundles by their index and loads one when it is needed. A
 * {@link sectorglass.decode.Decoder} runs a {@link sectorglass.decode.Format} over one {@link sectorglass.image.Window} and gives a
 * tree of {@link sectorglass.decode.FieldNode}. Decoding goes on after violations, unread bytes and clipped lengths; each
 * is marked at its field. Nothing here knows a format.
 */
@Export
@Version("0.1.0")
package sectorglass.decode;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
