/** What to read next, what came back, what should stand there: plans, copies, proposals, files, the job file. */
@Export
@Version("0.1.0")
package sectorglass.recovery;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
