/** Lessons, practice disks with planted faults and their grading; no window. */
@Export
@Version("0.1.0")
package sectorglass.practice;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
