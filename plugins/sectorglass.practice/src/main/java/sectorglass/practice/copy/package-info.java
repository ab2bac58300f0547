/**
 * Copies of the structures of a real image for lessons: names and resident content replaced, everything else unread. See
 * {@link sectorglass.practice.copy.StructureCopier}.
 */
@Export
@Version("0.1.0")
package sectorglass.practice.copy;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
