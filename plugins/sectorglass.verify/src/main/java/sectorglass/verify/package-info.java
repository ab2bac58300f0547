/**
 * Rules, verdicts and findings.
 *
 * <p>A {@link sectorglass.verify.Rule} is data: id, severity, source, what it follows from, and texts by language. A checker (code
 * in a format bundle) walks a structure once and reports into {@link sectorglass.verify.Checks}: passed, failed with stored and
 * computed value, or not checked with the sectors that prevent it. {@link sectorglass.verify.Findings} sorts what was collected,
 * folds what follows from another finding, numbers it and counts.
 *
 * <p>A rule whose subject is absent, or whose optional input was not given, yields no verdict at all.
 */
@Export
@Version("0.1.0")
package sectorglass.verify;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
