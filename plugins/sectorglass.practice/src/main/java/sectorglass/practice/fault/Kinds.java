package sectorglass.practice.fault;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** All kinds of faults. The order is part of what a seed means: new kinds are added at the end of their family. */
final class Kinds {
    static final List<FaultKind> ALL = collect();

    private Kinds() {
    }

    private static List<FaultKind> collect() {
        List<FaultKind> all = new ArrayList<>();
        all.addAll(MbrFaults.kinds());
        all.addAll(EbrFaults.kinds());
        all.addAll(GptFaults.kinds());
        all.addAll(NtfsBootFaults.kinds());
        all.addAll(NtfsRecordFaults.kinds());
        all.addAll(NtfsClusterFaults.kinds());
        all.addAll(FatBootFaults.kinds());
        all.addAll(FatChainFaults.kinds());
        all.addAll(FatFolderFaults.kinds());
        all.addAll(ExfatFaults.kinds());
        all.addAll(ExfatFolderFaults.kinds());
        all.addAll(ExtHeadFaults.kinds());
        all.addAll(ExtTreeFaults.kinds());
        Set<String> names = new HashSet<>();
        for (FaultKind kind : all) {
            if (!names.add(kind.name())) {
                throw new IllegalStateException("two kinds are called " + kind.name());
            }
        }
        return List.copyOf(all);
    }
}
