/** Reference cards: one document per structure, made from its spec, so that card and decoder never say different things. */
@Export
@Version("0.1.0")
package sectorglass.report.card;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
