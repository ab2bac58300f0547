/**
 * Sectors of a raw image with 64-bit addresses and a read state for every one of them.
 *
 * <p>{@link sectorglass.image.SectorImage} is read only: there is no way to write through it. A read never throws because a
 * medium failed; what could not be read comes back as a {@link sectorglass.image.ReadState} in a
 * {@link sectorglass.image.Window}, and its bytes are then not data. Corrections, fix-ups and merged passes are one
 * {@link sectorglass.image.Overlay} over an image, with {@link sectorglass.image.Provenance} per range.
 *
 * <p>Addresses: <em>image byte</em> is counted from the first byte of the image after its dump form was applied; <em>LBA</em> is
 * image byte divided by the sector size. All of them are {@code long} and never negative.
 */
@Export
@Version("0.1.0")
package sectorglass.image;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
