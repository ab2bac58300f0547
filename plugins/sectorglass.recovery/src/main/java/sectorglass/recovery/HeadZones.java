package sectorglass.recovery;

import java.io.IOException;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/**
 * Which head of a drive serves which sectors, as somebody measured it: CSV {@code first_lba,sectors,head}; see docs/files.md. Sectors that no line
 * names belong to no known head.
 *
 * @param zones the sectors of each head
 */
public record HeadZones(SortedMap<Integer, SectorRanges> zones) {
    /** No zones are known. */
    public static final HeadZones NONE = new HeadZones(new TreeMap<>());
    private static final int MOST_LINES = 10_000_000;
    private static final int MOST_HEADS = 64;

    /**
     * Reads zones.
     *
     * @throws IOException with a sentence for people, and the line, where the file is none
     */
    public static HeadZones load(Path file) throws IOException {
        Map<Integer, List<SectorRange>> found = new TreeMap<>();
        CSVFormat form = CSVFormat.RFC4180.builder().setCommentMarker('#').setIgnoreEmptyLines(true).setTrim(true).build();
        int lines = 0;
        try (Reader in = Files.newBufferedReader(file, StandardCharsets.UTF_8); CSVParser parser = form.parse(in)) {
            for (CSVRecord record : parser) {
                lines++;
                if (lines == 1 && record.get(0).replace("\uFEFF", "").equalsIgnoreCase("first_lba")) {
                    continue;
                }
                add(file, found, record, parser.getCurrentLineNumber());
                if (lines > MOST_LINES) {
                    throw new IOException(file + " has more than " + MOST_LINES + " lines.");
                }
            }
        } catch (java.nio.charset.CharacterCodingException e) {
            throw new IOException(file + " is no text in UTF-8.", e);
        } catch (java.io.UncheckedIOException | IllegalStateException e) {
            throw new IOException(file + " is no CSV: " + e.getMessage(), e);
        }
        SortedMap<Integer, SectorRanges> zones = new TreeMap<>();
        SectorRanges all = SectorRanges.EMPTY;
        for (Map.Entry<Integer, List<SectorRange>> head : found.entrySet()) {
            SectorRanges ranges = SectorRanges.of(head.getValue());
            SectorRanges twice = all.intersect(ranges);
            if (!twice.isEmpty()) {
                throw new IOException(file + " gives sector " + twice.run(0).first() + " to head " + head.getKey() + " and to another head.");
            }
            all = all.union(ranges);
            zones.put(head.getKey(), ranges);
        }
        if (zones.isEmpty()) {
            throw new IOException(file + " names no zones; a line is first_lba,sectors,head.");
        }
        return new HeadZones(zones);
    }

    private static void add(Path file, Map<Integer, List<SectorRange>> found, CSVRecord record, long line) throws IOException {
        try {
            long first = Long.parseLong(record.get(0).replace("\uFEFF", ""));
            long sectors = Long.parseLong(record.get(1));
            int head = Integer.parseInt(record.get(2));
            if (head < 0 || head >= MOST_HEADS || sectors == 0) {
                throw new IllegalArgumentException("head " + head + ", " + sectors + " sectors");
            }
            found.computeIfAbsent(head, h -> new ArrayList<>()).add(new SectorRange(first, sectors));
        } catch (IllegalArgumentException | ArrayIndexOutOfBoundsException e) {
            throw new IOException(file + ", line " + line + ": a line is first_lba,sectors,head with whole numbers, heads from 0 to " + (MOST_HEADS - 1) + ".", e);
        }
    }

    /** Sectors of these heads; heads that no line names have none. */
    public SectorRanges of(Iterable<Integer> heads) {
        SectorRanges all = SectorRanges.EMPTY;
        for (int head : heads) {
            all = all.union(zones.getOrDefault(head, SectorRanges.EMPTY));
        }
        return all;
    }

    /** The same with these sectors given to a head; whichever had them before has them no more. */
    public HeadZones with(int head, SectorRange sectors) {
        if (head < 0 || head >= MOST_HEADS) {
            throw new IllegalArgumentException("head " + head);
        }
        SortedMap<Integer, SectorRanges> changed = new TreeMap<>(without(sectors).zones);
        changed.merge(head, SectorRanges.of(sectors), SectorRanges::union);
        return new HeadZones(changed);
    }

    /** The same with these sectors of no known head. */
    public HeadZones without(SectorRange sectors) {
        SectorRanges taken = SectorRanges.of(sectors);
        SortedMap<Integer, SectorRanges> changed = new TreeMap<>();
        zones.forEach((head, ranges) -> {
            SectorRanges left = ranges.minus(taken);
            if (!left.isEmpty()) {
                changed.put(head, left);
            }
        });
        return new HeadZones(changed);
    }

    /** Writes the zones in the form that {@link #load} reads, by address; a file that exists is written over. */
    public void save(Path file) throws IOException {
        List<String> lines = new ArrayList<>();
        lines.add("first_lba,sectors,head");
        SortedMap<SectorRange, Integer> sorted = new TreeMap<>();
        zones.forEach((head, ranges) -> ranges.forEach(run -> sorted.put(run, head)));
        sorted.forEach((run, head) -> lines.add(run.first() + "," + run.count() + "," + head));
        Files.write(file, lines, StandardCharsets.UTF_8);
    }
}
