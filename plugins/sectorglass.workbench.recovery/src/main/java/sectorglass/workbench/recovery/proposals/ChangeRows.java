package sectorglass.workbench.recovery.proposals;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Set;

import sectorglass.decode.FieldNode;
import sectorglass.decode.FieldWalk;
import sectorglass.disk.Disk;
import sectorglass.disk.Repair;
import sectorglass.disk.Structure;
import sectorglass.image.Overlay;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;
import sectorglass.workbench.model.Decodings;
import sectorglass.workbench.model.Explained;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.recovery.Words;

/** The fields that a correction changes, decoded without and with it. */
final class ChangeRows {
    private static final int MOST = 1000;
    private static final int HEX = 12;

    private final SectorImage base;
    private final Disk after;
    private final Decodings with;
    private final Decodings without;
    private final List<Row> rows = new ArrayList<>();
    private final Set<String> seen = new HashSet<>();

    /**
     * A line.
     *
     * @param at image byte
     * @param field name of the field, with its structure
     * @param before value as it stands; "not read" where it was not
     * @param now value with the correction
     * @param why reason of the change
     */
    record Row(long at, String field, String before, String now, String why) { }

    /** @param after the survey of the overlay */
    ChangeRows(SectorImage base, Disk after) {
        this.base = base;
        this.after = after;
        this.with = new Decodings(after, Bench.catalogue());
        this.without = new Decodings(new Disk(base, after.maps(), after.partitions(), after.volume()), Bench.catalogue());
    }

    /** The lines of all changes, by address; at most some hundreds. */
    List<Row> of(List<Repair.Change> changes) {
        for (Repair.Change change : changes) {
            if (rows.size() < MOST) {
                add(change);
            }
        }
        rows.sort(java.util.Comparator.comparingLong(Row::at));
        return List.copyOf(rows);
    }

    private void add(Repair.Change change) {
        Structure structure = after.structureAt(change.firstByte()).orElse(null);
        Explained now = structure == null ? null : with.of(structure);
        Explained was = structure == null ? null : without.of(structure);
        boolean told = false;
        if (now != null && now.root() != null) {
            for (FieldNode field : FieldWalk.values(now.root())) {
                if (field.length() > 0 && field.length() <= 512 && touches(field, change) && differs(field) && rows.size() < MOST
                        && seen.add(field.firstByte() + ":" + field.length())) {
                    FieldNode old = was == null ? null : was.find(field.path());
                    rows.add(new Row(field.firstByte(), structure.name() + " · " + field.label(),
                            old == null || old.length() != field.length() ? bytes(base, field.firstByte(), field.length()) : shown(old),
                            shown(field), change.why()));
                    told = true;
                }
            }
        }
        if (!told && seen.add("raw " + change.firstByte())) {
            rows.add(new Row(change.firstByte(), structure == null ? "" : structure.name(),
                    bytes(base, change.firstByte(), change.bytes().length), bytes(after.image(), change.firstByte(), change.bytes().length),
                    change.why()));
        }
    }

    private static boolean touches(FieldNode field, Repair.Change change) {
        return field.firstByte() < change.range().end() && change.firstByte() < field.firstByte() + field.length();
    }

    private boolean differs(FieldNode field) {
        Window one = base.window(field.firstByte(), (int) field.length());
        Window two = after.image().window(field.firstByte(), (int) field.length());
        return !one.isRead(0, one.length()) || !java.util.Arrays.equals(one.raw(0, one.length()), two.raw(0, two.length()));
    }

    private static String shown(FieldNode field) {
        if (field.state() == FieldNode.State.UNREAD) {
            return Words.of("proposals.value.unread");
        }
        return field.meaning() == null || field.meaning().isEmpty() ? field.value() : field.value() + " (" + field.meaning() + ")";
    }

    private static String bytes(SectorImage image, long at, long length) {
        int shown = (int) Math.min(length, HEX);
        Window window = image.window(at, shown);
        if (!window.isRead(0, shown)) {
            return Words.of("proposals.value.unread");
        }
        String hex = HexFormat.ofDelimiter(" ").withUpperCase().formatHex(window.raw(0, shown));
        return length > shown ? hex + " …" : hex;
    }

    /** The image under all overlays. */
    static SectorImage base(SectorImage image) {
        SectorImage below = image;
        while (below instanceof Overlay over) {
            below = over.base();
        }
        return below;
    }
}
