package sectorglass.partition.repair;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.Repair;
import sectorglass.disk.RepairTexts;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.partition.PartitionRules;
import sectorglass.partition.gpt.GptDisk;
import sectorglass.partition.gpt.GptHeader;
import sectorglass.partition.gpt.GptSums;

/** The checksums of the header whose fields or entries a person changed. */
public final class GptDependents {

    private GptDependents() {
    }

    /** Changes that make the checksums over the changed bytes hold again. */
    public static List<Repair.Change> of(ByteRange changed, SectorImage image, Locale locale) {
        GptDisk disk = GptDisk.of(image);
        RepairTexts texts = new RepairTexts(PartitionRules.class, locale);
        List<Repair.Change> all = new ArrayList<>();
        for (GptHeader header : new GptHeader[] {disk.primary(), disk.backup()}) {
            if (header != null && header.found() && (header.where().overlaps(changed) || header.overEntries(changed))) {
                all.addAll(GptSums.of(header, image, texts.of("why.array-crc"), texts.of("why.header-crc")));
            }
        }
        return all;
    }
}
