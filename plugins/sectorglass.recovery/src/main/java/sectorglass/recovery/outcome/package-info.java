/**
 * What came back: every file with its state, folders and kinds summed, and what was wanted beside what was found. Whatever is counted
 * here is what files, plan and report say, so that their numbers agree.
 */
@Export
@Version("0.1.0")
package sectorglass.recovery.outcome;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
