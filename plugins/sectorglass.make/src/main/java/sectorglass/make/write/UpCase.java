package sectorglass.make.write;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

import sectorglass.make.Medium;

/**
 * Upper-case mappings of the 65536 UTF-16 units, fixed so that they do not change with the Java version.
 * {@code upcase-exfat.txt}: the recommended table of the exFAT specification, section 7.2.5.1, its checksum E619D30D being
 * tested. {@code upcase-ntfs.txt}: the mapping that volumes of NTFS 3.1 made by mkntfs (ntfs-3g 2022.10.3) hold in $UpCase.
 * Each line: first unit, last unit, step, what to add.
 */
public final class UpCase {
    /** The recommended table of exFAT. */
    public static final UpCase EXFAT = load("upcase-exfat.txt");
    /** The table of NTFS. */
    public static final UpCase NTFS = load("upcase-ntfs.txt");

    private final char[] table;

    private UpCase(char[] table) {
        this.table = table;
    }

    private static UpCase load(String name) {
        char[] table = new char[1 << 16];
        for (int i = 0; i < table.length; i++) {
            table[i] = (char) i;
        }
        try (BufferedReader lines = new BufferedReader(
                new InputStreamReader(Medium.class.getResourceAsStream(name), StandardCharsets.US_ASCII))) {
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                String[] parts = line.split(" ");
                int step = Integer.parseInt(parts[2]);
                int add = Integer.parseInt(parts[3]);
                for (int unit = Integer.parseInt(parts[0], 16); unit <= Integer.parseInt(parts[1], 16); unit += step) {
                    table[unit] = (char) (unit + add);
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return new UpCase(table);
    }

    /** One unit in upper case. */
    public char of(char unit) {
        return table[unit];
    }

    /** A name in upper case, unit by unit. */
    public String of(String name) {
        char[] units = name.toCharArray();
        for (int i = 0; i < units.length; i++) {
            units[i] = table[units[i]];
        }
        return new String(units);
    }

    /** Order of names in a directory: by upper-cased units, then by length. */
    public int compare(String a, String b) {
        int common = Math.min(a.length(), b.length());
        for (int i = 0; i < common; i++) {
            int order = Character.compare(table[a.charAt(i)], table[b.charAt(i)]);
            if (order != 0) {
                return order;
            }
        }
        return Integer.compare(a.length(), b.length());
    }

    /** All units, two bytes each. */
    public byte[] plain() {
        Block block = new Block(table.length * 2);
        for (int i = 0; i < table.length; i++) {
            block.u16(2 * i, table[i]);
        }
        return block.bytes();
    }

    /**
     * The form of exFAT in which FFFF and a count stand for that many units mapped to themselves; runs shorter than 512 are
     * written out, which gives the 5836 bytes of the recommended table.
     */
    public byte[] compressed() {
        Block block = new Block(table.length * 2);
        int at = 0;
        for (int unit = 0; unit < table.length;) {
            int end = unit;
            while (end < table.length && table[end] == end) {
                end++;
            }
            if (end - unit >= 512) {
                block.u16(at, 0xFFFF).u16(at + 2, end - unit);
                at += 4;
                unit = end;
            } else {
                for (end = Math.max(end, unit + 1); unit < end; unit++, at += 2) {
                    block.u16(at, table[unit]);
                }
            }
        }
        return java.util.Arrays.copyOf(block.bytes(), at);
    }
}
