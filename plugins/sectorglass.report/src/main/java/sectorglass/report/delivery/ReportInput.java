package sectorglass.report.delivery;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.Disk;
import sectorglass.recovery.Job;
import sectorglass.recovery.JobPasses;
import sectorglass.recovery.PassHistory;
import sectorglass.recovery.ReadPlan;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.outcome.Outcome;
import sectorglass.recovery.outcome.WishAnswer;
import sectorglass.verify.Findings;

/**
 * Everything that reports are made of.
 *
 * @param disk the disk
 * @param sources files that the image came from, with their hashes where they were asked for
 * @param outcomes one per volume with files
 * @param tests per outcome a result per entry, as {@code FileTests.testAll} gives it; empty where nothing was tested
 * @param wishes answers to the wanted list; empty where there is none
 * @param findings of the disk
 * @param plan what could still be read
 * @param job the job, or {@link Job#empty}
 * @param reference the customer's reference, or null
 * @param locale language and forms of numbers and dates
 * @param at when the report is made
 * @param zone whose date it bears
 * @param thumbnails whether the customer's report shows small pictures of the pictures that open: content of the customer
 * @param history what each pass added, or {@link JobPasses#NONE}
 */
public record ReportInput(Disk disk, List<Source> sources, List<Outcome> outcomes, List<TestResult[]> tests, List<WishAnswer> wishes,
        Findings findings, ReadPlan plan, Job job, String reference, Locale locale, Instant at, ZoneId zone, boolean thumbnails, PassHistory history) {

    /** Without small pictures and without what the passes added. */
    public ReportInput(Disk disk, List<Source> sources, List<Outcome> outcomes, List<TestResult[]> tests, List<WishAnswer> wishes, Findings findings,
            ReadPlan plan, Job job, String reference, Locale locale, Instant at, ZoneId zone) {
        this(disk, sources, outcomes, tests, wishes, findings, plan, job, reference, locale, at, zone, false, JobPasses.NONE);
    }

    /** A file of the image. */
    public record Source(String path, long bytes, String sha256) { }

    /** The test of a file, or null. */
    TestResult test(int outcome, int entry) {
        return tests.isEmpty() ? null : tests.get(outcome)[entry];
    }
}
