/**
 * Do the files open? Bundles provide {@link sectorglass.recovery.opening.FileTest}s for kinds of content;
 * {@link sectorglass.recovery.opening.FileTests} runs them, bounded in time and memory.
 */
@Export
@Version("0.1.0")
package sectorglass.recovery.opening;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
