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
 * @param thumbnails whether the customer's report shows small pictures
 * @param full whether every record and cluster map is checked
 * @param hash whether the image's files are hashed
 */
record ReportWish(Path folder, String reference, Path wanted, Locale locale, boolean test, boolean thumbnails, boolean full, boolean hash) { }
