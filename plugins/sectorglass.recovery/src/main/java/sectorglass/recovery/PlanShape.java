package sectorglass.recovery;

import java.util.ArrayList;
import java.util.List;

import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/** Gives the stages of a plan their last form: one head only, weak heads last, small gaps read. */
final class PlanShape {
    private final PlanOptions options;
    private final SectorRanges all;
    private final SectorRanges failed;
    private final int sectorSize;

    PlanShape(PlanOptions options, SectorRange all, SectorRanges failed, int sectorSize) {
        this.options = options;
        this.all = SectorRanges.of(all);
        this.failed = failed;
        this.sectorSize = sectorSize;
    }

    /** No sector stands in two stages afterwards either: a gap that another stage wants is taken from it if that stage comes later. */
    List<ReadPlan.Stage> shape(List<ReadPlan.Stage> wanted) {
        List<ReadPlan.Stage> strong = new ArrayList<>();
        List<ReadPlan.Stage> weak = new ArrayList<>();
        for (ReadPlan.Stage stage : wanted) {
            SectorRanges ranges = options.only() == null ? stage.ranges() : stage.ranges().intersect(options.only());
            SectorRanges last = ranges.intersect(options.last());
            add(strong, stage, ranges.minus(last), false);
            add(weak, stage, last, true);
        }
        strong.addAll(weak);
        return bridged(strong);
    }

    private static void add(List<ReadPlan.Stage> to, ReadPlan.Stage stage, SectorRanges ranges, boolean weak) {
        if (!ranges.isEmpty()) {
            to.add(stage.with(ranges, weak, 0));
        }
    }

    private List<ReadPlan.Stage> bridged(List<ReadPlan.Stage> stages) {
        if (options.cost().largestGap(sectorSize) == 0) {
            return List.copyOf(stages);
        }
        SectorRanges allowed = options.only() == null ? all : all.intersect(options.only());
        SectorRanges may = allowed.minus(failed).minus(options.last());
        List<ReadPlan.Stage> shaped = new ArrayList<>();
        SectorRanges taken = SectorRanges.EMPTY;
        for (ReadPlan.Stage stage : stages) {
            SectorRanges ranges = stage.ranges().minus(taken);
            if (ranges.isEmpty()) {
                continue;
            }
            boolean patient = stage.kind() == ReadPlan.Kind.SECOND_PASS || stage.kind() == ReadPlan.Kind.THIRD_PASS || stage.weak();
            SectorRanges with = patient ? ranges : options.cost().bridged(ranges, sectorSize, may.minus(taken));
            taken = taken.union(with);
            shaped.add(stage.with(with, stage.weak(), with.count() - ranges.count()));
        }
        return List.copyOf(shaped);
    }
}
