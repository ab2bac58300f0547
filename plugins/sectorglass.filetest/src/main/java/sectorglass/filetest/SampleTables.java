package sectorglass.filetest;

import java.io.IOException;
import java.util.HashMap;
import java.util.Map;

import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestedFile;

/** The tables of one track: samples to chunks to places, all of which must agree (ISO/IEC 14496-12, section 8.7). */
final class SampleTables {
    private final TestedFile file;
    private final long from;
    private final long end;
    private final Map<String, long[]> boxes = new HashMap<>();

    /** @param from first byte inside the box {@code stbl} */
    SampleTables(TestedFile file, long from, long end) {
        this.file = file;
        this.from = from;
        this.end = end;
    }

    /** Null where all is well. */
    TestResult test() throws IOException {
        for (long at = from; at < end;) {
            file.checkTime();
            long size = end - at < 8 ? 0 : file.big(at, 4);
            if (size < 8 || size > end - at) {
                return TestResult.damaged("test.size", "stbl", at);
            }
            String kind = file.text(at + 4, 4);
            if (!kind.matches("[\\x20-\\x7E\\xA9]{4}")) {
                return TestResult.damaged("test.form", at, "\"" + kind + "\"");
            }
            boxes.put(kind, new long[] {at + 8, at + size});
            at += size;
        }
        long[] sizes = boxes.get("stsz");
        long[] places = boxes.getOrDefault("co64", boxes.get("stco"));
        long[] chunks = boxes.get("stsc");
        long[] times = boxes.get("stts");
        if (!boxes.containsKey("stsd") || times == null) {
            return TestResult.damaged("test.lacks", boxes.containsKey("stsd") ? "stts" : "stsd");
        }
        if (sizes == null && boxes.containsKey("stz2")) {
            return null;
        }
        if (sizes == null || places == null || chunks == null) {
            return TestResult.damaged("test.lacks", sizes == null ? "stsz" : places == null ? "stco" : "stsc");
        }
        return tables(sizes, places, boxes.containsKey("co64") ? 8 : 4, chunks, times);
    }

    private TestResult tables(long[] sizes, long[] places, int wide, long[] chunks, long[] times) throws IOException {
        long same = file.big(sizes[0] + 4, 4);
        long samples = file.big(sizes[0] + 8, 4);
        if (same == 0 && samples * 4 != sizes[1] - sizes[0] - 12) {
            return TestResult.damaged("test.table", "stsz", samples + " samples");
        }
        long timed = 0;
        long entries = entries(times, 8);
        for (long i = 0; i < entries; i++) {
            timed += file.big(times[0] + 8 + i * 8, 4);
        }
        if (entries < 0 || timed != samples) {
            return TestResult.damaged("test.table", "stts", timed + " / " + samples);
        }
        long chunkCount = entries(places, wide);
        long runs = entries(chunks, 12);
        if (chunkCount < 0 || runs < 0) {
            return TestResult.damaged("test.table", chunkCount < 0 ? "stco" : "stsc", "length");
        }
        int unit = UnitLengths.lengthSize(file, boxes.get("stsd"));
        long sample = 0;
        long chunk = 0;
        for (long run = 0; run < runs; run++) {
            long first = file.big(chunks[0] + 8 + run * 12, 4) - 1;
            long each = file.big(chunks[0] + 12 + run * 12, 4);
            long next = run + 1 < runs ? file.big(chunks[0] + 20 + run * 12, 4) - 1 : chunkCount;
            if (first != chunk || next <= first || next > chunkCount) {
                return TestResult.damaged("test.table", "stsc", "chunk " + first);
            }
            for (; chunk < next; chunk++) {
                file.checkTime();
                long at = file.big(places[0] + 8 + chunk * wide, wide);
                for (long i = 0; i < each; i++, sample++) {
                    if (sample >= samples) {
                        return TestResult.damaged("test.table", "stsc", "samples " + samples);
                    }
                    long size = same != 0 ? same : file.big(sizes[0] + 12 + sample * 4, 4);
                    if (at < 8 || at > file.bytes() - size) {
                        return TestResult.damaged("test.table", "stco", "sample " + sample);
                    }
                    if (unit > 0 && !UnitLengths.fill(file, at, size, unit)) {
                        return TestResult.damaged("test.form", at, "sample " + sample);
                    }
                    at += size;
                }
            }
        }
        return sample == samples ? null : TestResult.damaged("test.table", "stsc", sample + " / " + samples);
    }

    /** Number of entries of a table, or -1 where they do not fit its box. */
    private long entries(long[] table, int wide) throws IOException {
        long count = table[1] - table[0] < 8 ? -1 : file.big(table[0] + 4, 4);
        return count > (table[1] - table[0] - 8) / wide ? -1 : count;
    }
}
