/**
 * Copies of structures without the person in them: a volume that provides {@link sectorglass.disk.copy.StructureCopy} puts its own structures into a
 * {@link sectorglass.disk.copy.CopyTarget}, names and resident content replaced by a {@link sectorglass.disk.copy.Disguise}. What a volume does not put
 * there is not in the copy.
 */
@Export
@Version("0.1.0")
package sectorglass.disk.copy;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
