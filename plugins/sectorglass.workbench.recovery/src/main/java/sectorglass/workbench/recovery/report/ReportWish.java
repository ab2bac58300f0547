package sectorglass.workbench.recovery.report;

import java.nio.file.Path;
import java.util.Locale;

/**
 * What a person wants of the reports.
 *
 * @param folder to write into
 * @param reference the customer's, or null
 * @param wanted file of the wanted list, or null
 * @param locale language of the reports
 * @param test whether every file is tested
 */
record ReportWish(Path folder, String reference, Path wanted, Locale locale, boolean test) { }
