/**
 * Documents for print: a list of blocks that HTML and PDF writers lay out, so that both say the same. Names from a disk are text, never markup,
 * whatever they hold.
 */
@Export
@Version("0.1.0")
package sectorglass.report.document;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
