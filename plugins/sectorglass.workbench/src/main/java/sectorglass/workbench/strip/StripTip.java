package sectorglass.workbench.strip;

import java.util.Optional;

import sectorglass.disk.Partition;
import sectorglass.image.ByteRange;
import sectorglass.image.ReadState;
import sectorglass.image.SafeText;
import sectorglass.recovery.Job;
import sectorglass.verify.Finding;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Sign;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.model.FoundRange;

/** What the strip says of a place. */
final class StripTip {

    /** Pixels to the left of the pointer in which the pole of a pennant may stand. */
    private static final int NEAR = 9;

    private StripTip() {
    }

    static String at(Desk desk, Scale scale, int x) {
        OpenDisk open = desk.open();
        long lba = scale.lba(x);
        int size = open.image().sectorSize();
        StringBuilder text = new StringBuilder("LBA ").append(Numbers.grouped(lba));
        Optional<Partition> partition = open.partitionAt(lba);
        if (partition.isPresent()) {
            Partition p = partition.get();
            text.append('\n').append(StripLabels.name(p));
            text.append('\n').append(Texts.of("strip.range", Numbers.grouped(p.range().first()), Numbers.grouped(p.range().last()),
                    Numbers.size(p.range().count() * size)));
        } else {
            text.append('\n').append(Texts.of("strip.gap"));
        }
        for (FoundRange found : desk.found()) {
            if (found.sectors().contains(lba)) {
                text.append('\n').append(found.text());
            }
        }
        if (desk.marked().sectors().contains(lba)) {
            text.append('\n').append(Texts.of("strip.marked", desk.marked().what()));
        }
        ReadState state = open.image().state(lba);
        text.append('\n').append(Texts.of("state." + state.word()));
        for (Finding finding : open.findings(new ByteRange(lba * size, size))) {
            text.append('\n').append(Sign.of(finding).word()).append(": ").append(finding.what());
        }
        // a pointer cannot hit a single sector of a large disk: marks near it are told, too
        long near = scale.lba(x - NEAR);
        ByteRange around = new ByteRange(near * size, Math.max(1, scale.lba(x + 2.0) - near) * size);
        for (Job.Mark mark : desk.marks().in(around)) {
            text.append('\n').append(Texts.of("strip.mark", SafeText.of(mark.name())));
        }
        return text.toString().replace("&", "&&");
    }
}
