package sectorglass.recovery;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.MapVerdict;
import sectorglass.disk.Survey;
import sectorglass.image.Progress;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;

/**
 * Copies of one disk with everything that is needed to judge and merge them.
 *
 * @param images the copies
 * @param disks their surveys
 * @param comparison where they agree
 * @param sameDisk whether they are of one disk in one state
 * @param plan which copy each sector is taken from
 * @param disputes what the checks of the structures themselves said where the quick checks decided nothing
 */
public record Passes(List<? extends SectorImage> images, List<Disk> disks, CopyComparison comparison, SameDisk sameDisk, MergePlan plan, Disputes disputes) {

    /** Compares copies, surveys each, and makes the plan for merging them. */
    public static Passes of(List<? extends SectorImage> images, RuleBook book, Progress progress) {
        Survey survey = Survey.ofProviders();
        List<Disk> disks = new ArrayList<>();
        List<Findings> findings = new ArrayList<>();
        List<List<MapVerdict>> verdicts = new ArrayList<>();
        List<SectorRanges> readers = new ArrayList<>();
        for (SectorImage image : images) {
            Disk disk = survey.disk(image, progress);
            disks.add(disk);
            verdicts.add(survey.judge(disk, book));
            findings.add(survey.verify(disk, Level.QUICK, book, progress));
            readers.add(image.inState(ReadState.READ, image.all()));
        }
        CopyComparison comparison = CopyComparison.of(images, progress);
        MergePlan plan = MergePlan.of(comparison, readers, findings, images.get(0).sectorSize());
        FullJudge.Judged judged = FullJudge.of(plan, images, disks, readers, progress);
        return new Passes(images, List.copyOf(disks), comparison, SameDisk.judge(disks, verdicts, comparison), judged.plan(), judged.disputes());
    }

    /** The merged view. */
    public MergedImage merged() {
        return new MergedImage(images, plan);
    }
}
