package sectorglass.workbench.parts;

import java.util.Optional;

import sectorglass.decode.FieldNode;
import sectorglass.disk.Partition;
import sectorglass.disk.Volume;
import sectorglass.image.ByteRange;
import sectorglass.image.SafeText;
import sectorglass.image.SectorImage;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.Explained;

/**
 * Everything about the caret in two lines.
 *
 * @param place where it stands
 * @param field what stands there
 */
record CaretText(String place, String field) {

    static CaretText of(Desk desk) {
        return new CaretText(place(desk), field(desk));
    }

    private static String place(Desk desk) {
        SectorImage image = desk.open().image();
        long caret = desk.caret();
        StringBuilder text = new StringBuilder();
        text.append(Texts.of("caret.lba", Numbers.grouped(caret / image.sectorSize()), Long.toString(caret % image.sectorSize()),
                Numbers.hex(caret % image.sectorSize(), 3)));
        text.append("  \u00B7  ").append(Texts.of("caret.image", Numbers.grouped(caret), Numbers.hex(caret, 1)));
        Optional<Partition> partition = desk.open().partitionAt(caret / image.sectorSize());
        if (partition.isPresent()) {
            long inside = caret - partition.get().range().first() * image.sectorSize();
            text.append("  \u00B7  ").append(Texts.of("caret.partition", partition.get().number(), Numbers.grouped(inside), Numbers.hex(inside, 1)));
        }
        Optional<Volume> volume = desk.open().disk().volumeAt(caret);
        if (volume.isPresent() && volume.get().info().clusterBytes() != null && volume.get().info().clusterBytes() > 0) {
            long size = volume.get().info().clusterBytes();
            long inside = caret - volume.get().site().firstByte();
            if (inside >= 0 && volume.get().address("cluster", 0).orElse(-1) == volume.get().site().firstByte()) {
                text.append("  \u00B7  ").append(Texts.of("caret.cluster", Numbers.grouped(inside / size), Long.toString(inside % size)));
            }
        }
        ByteRange selection = desk.selection();
        if (selection != null && selection.length() > 1) {
            text.append("  \u00B7  ").append(Texts.of("caret.selected", Numbers.grouped(selection.length()), Numbers.hex(selection.length(), 1)));
        }
        return text.toString();
    }

    private static String field(Desk desk) {
        Explained explained = desk.explained();
        if (explained == null || !explained.structure().range().contains(desk.caret())) {
            return Texts.of("caret.unexplained");
        }
        long offset = desk.caret() - explained.structure().range().start();
        String structure = SafeText.of(explained.structure().name());
        FieldNode field = desk.field();
        String where = Texts.of("caret.structure", structure, Numbers.grouped(offset), Numbers.hex(offset, 1));
        if (field == null) {
            return where + "  \u00B7  " + Texts.of("caret.nofield");
        }
        if (desk.cover().hides(field)) {
            return where + "  \u00B7  " + Texts.of("cover.field");
        }
        String value = field.value() == null || field.raw() instanceof byte[] ? "" : "  =  " + SafeText.of(field.value());
        String meaning = field.meaning() == null || field.meaning().equals(field.value()) ? "" : "  (" + SafeText.of(field.meaning()) + ")";
        return where + "  \u00B7  " + SafeText.of(field.label()) + value + meaning;
    }
}
