package sectorglass.workbench.strip;

import java.util.Optional;

import sectorglass.disk.Partition;
import sectorglass.image.ByteRange;
import sectorglass.image.ReadState;
import sectorglass.verify.Finding;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Sign;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Marked;
import sectorglass.workbench.model.OpenDisk;

/** What the strip says of a place. */
final class StripTip {

    private StripTip() {
    }

    static String at(OpenDisk open, Marked marked, long lba) {
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
        if (marked.sectors().contains(lba)) {
            text.append('\n').append(Texts.of("strip.marked", marked.what()));
        }
        ReadState state = open.image().state(lba);
        text.append('\n').append(Texts.of("state." + state.word()));
        for (Finding finding : open.findings(new ByteRange(lba * size, size))) {
            text.append('\n').append(Sign.of(finding).word()).append(": ").append(finding.what());
        }
        return text.toString().replace("&", "&&");
    }
}
