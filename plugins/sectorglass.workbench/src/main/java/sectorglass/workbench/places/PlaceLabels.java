package sectorglass.workbench.places;

import java.util.Optional;

import sectorglass.disk.Partition;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.model.OpenDisk;

/**
 * Writes the place of a row. An LBA is always decimal; bytes are hexadecimal or decimal as chosen.
 *
 * @param open the disk
 * @param offsets what places are counted from
 * @param hex whether bytes are written in hexadecimal digits
 */
public record PlaceLabels(OpenDisk open, Offsets offsets, boolean hex) {
    private static final String NONE = "\u2013";

    /** What stands above the labels. */
    public String heading() {
        return offsets.heading() + (hex ? ", hex" : "");
    }

    /**
     * The label of a row.
     *
     * @param address image byte of its first byte
     * @param structure image byte where the structure that explains the row begins, or -1 for none
     */
    public String of(long address, long structure) {
        int size = open.image().sectorSize();
        switch (offsets) {
            case LBA:
                return "LBA " + Numbers.grouped(Long.toString(address / size), ' ') + " \u00B7 " + inside(address % size, 3);
            case IMAGE:
                return inside(address, digits(open.image().bytes() - 1));
            case PARTITION:
                Optional<Partition> partition = open.partitionAt(address / size);
                return partition.map(p -> p.number() + " \u00B7 " + inside(address - p.range().first() * size, 3)).orElse(NONE);
            default:
                return structure < 0 ? NONE : inside(address - structure, 3);
        }
    }

    private String inside(long bytes, int digits) {
        return hex ? Numbers.hex(bytes, digits) : Numbers.grouped(Long.toString(bytes), ' ');
    }

    private static int digits(long last) {
        return Long.toHexString(Math.max(0, last)).length();
    }

    /** Characters that the longest label of the disk has, the heading included. */
    public int longest() {
        long last = Math.max(0, open.image().bytes() - 1);
        String deep = inside(last, 3);
        int label = switch (offsets) {
            case LBA -> of(last, -1).length();
            case IMAGE -> deep.length();
            case PARTITION -> deep.length() + 5;
            case STRUCTURE -> 10; // a structure has at most some MiB
        };
        return Math.max(label, heading().length());
    }
}
