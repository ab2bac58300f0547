package sectorglass.drive;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import sectorglass.disk.DriveHealth;
import sectorglass.image.Window;

/**
 * SMART data and threshold sectors. Their layout is the maker's since ATA-4 and the same in practice (drive manuals). The second sector
 * lists thresholds in the same order.
 *
 * @param data the data sector
 * @param thresholds the threshold sector, or null
 */
record SmartData(Window data, Window thresholds) {
    static final int ATTRIBUTES = 2;
    static final int SIZE = 12;
    static final int COUNT = 30;
    static final int CHECKSUM = 511;
    private static final int PREFAILURE = 1;
    private static final Map<Integer, String> NAMES = names();

    private static Map<Integer, String> names() {
        Map<Integer, String> names = new HashMap<>();
        try (InputStream in = SmartData.class.getResourceAsStream("smart-attributes.tsv");
                BufferedReader lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                if (!line.startsWith("#") && !line.isBlank()) {
                    String[] cells = line.split("\t");
                    names.put(Integer.parseInt(cells[0], 16), cells[1]);
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return Map.copyOf(names);
    }

    /** The checksum byte that makes the sum of all 512 bytes 0. */
    static int checksum(Window sector) {
        int sum = 0;
        for (int at = 0; at < CHECKSUM; at++) {
            sum += sector.u8(at);
        }
        return -sum & 0xFF;
    }

    /** Image byte offset of the attribute in its sector. */
    static int at(int index) {
        return ATTRIBUTES + index * SIZE;
    }

    /** The attribute in a slot, or null where the slot is empty. */
    DriveHealth.Attribute attribute(int index) {
        int at = at(index);
        int id = data.u8(at);
        if (id == 0) {
            return null;
        }
        long raw = data.u32le(at + 5) | (long) data.u16le(at + 9) << 32;
        return new DriveHealth.Attribute(id, NAMES.get(id), (data.u16le(at + 1) & PREFAILURE) != 0, data.u8(at + 3), data.u8(at + 4),
                threshold(id), raw);
    }

    private Integer threshold(int id) {
        if (thresholds == null || thresholds.length() < 512) {
            return null;
        }
        for (int i = 0; i < COUNT; i++) {
            if (thresholds.u8(at(i)) == id) {
                return thresholds.u8(at(i) + 1);
            }
        }
        return null;
    }

    DriveHealth health() {
        List<DriveHealth.Attribute> all = new ArrayList<>();
        for (int i = 0; i < COUNT; i++) {
            DriveHealth.Attribute attribute = attribute(i);
            if (attribute != null) {
                all.add(attribute);
            }
        }
        return new DriveHealth(List.copyOf(all));
    }
}
