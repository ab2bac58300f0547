package sectorglass.filetest;

import java.io.IOException;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import org.osgi.service.component.annotations.Component;
import sectorglass.recovery.opening.FileTest;
import sectorglass.recovery.opening.FileType;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestedFile;

/**
 * Compound files: the older office documents and single mails. The allocation table, the directory and the chain of every stream must
 * agree ([MS-CFB], sections 2.2 to 2.6). The content of the streams carries no checksum.
 */
@Component(service = FileTest.class)
@ServiceProvider(value = FileTest.class, resolution = Resolution.OPTIONAL)
public final class CompoundFiles implements FileTest {
    private static final long END = 0xFFFFFFFEL;
    private static final long FREE = 0xFFFFFFFFL;
    private static final long LARGEST = 0xFFFFFFFAL;
    private static final FileType OLE = FileType.of("compound", "compound file (older office document)", "doc dot xls xlt ppt pps msg vsd mpp msi", 0,
            "\u00D0\u00CF\u0011\u00E0\u00A1\u00B1\u001A\u00E1");

    @Override
    public List<FileType> types() {
        return List.of(OLE);
    }

    @Override
    public TestResult test(FileType type, TestedFile file) throws IOException {
        return new Walk(file).test();
    }

    private static final class Walk {
        private final TestedFile file;
        private final BitSet taken = new BitSet();
        private int sector;
        private long sectors;
        private long[] table;

        Walk(TestedFile file) {
            this.file = file;
        }

        TestResult test() throws IOException {
            long version = file.little(26, 2);
            long shift = file.little(30, 2);
            if (file.little(28, 2) != 0xFFFE || !(version == 3 && shift == 9 || version == 4 && shift == 12) || file.little(32, 2) != 6) {
                return TestResult.damaged("test.header", 0L, "version " + version + ", " + shift);
            }
            sector = 1 << shift;
            sectors = (file.bytes() + sector - 1) / sector - 1;
            if (sectors > 1 << 26) {
                return TestResult.notTested("test.limits");
            }
            List<Long> parts = tableSectors();
            table = new long[(int) Math.min(sectors, (long) parts.size() * (sector / 4))];
            for (int i = 0; i < table.length; i++) {
                if (i % (sector / 4) == 0) {
                    file.checkTime();
                }
                table[i] = file.little(place(parts.get(i / (sector / 4))) + 4L * (i % (sector / 4)), 4);
            }
            List<Long> directory = chain(file.little(48, 4), -1);
            chain(file.little(60, 4), file.little(64, 4));
            long cutoff = file.little(56, 4);
            for (long at : directory) {
                for (int i = 0; i < sector; i += 128) {
                    TestResult wrong = entry(place(at) + i, cutoff, directory.size() * (long) (sector / 128), version);
                    if (wrong != null) {
                        return wrong;
                    }
                }
            }
            for (int i = 0; i < table.length; i++) {
                if (table[i] != FREE && table[i] <= END && !taken.get(i) && table[i] < LARGEST) {
                    return TestResult.damaged("test.table", "FAT", "sector " + i);
                }
            }
            return TestResult.sound();
        }

        private long place(long number) {
            return (number + 1) * sector;
        }

        private List<Long> tableSectors() throws IOException {
            List<Long> all = new ArrayList<>();
            long count = file.little(44, 4);
            for (int i = 0; i < 109 && all.size() < count; i++) {
                add(all, file.little(76 + 4L * i, 4));
            }
            long next = file.little(68, 4);
            for (long left = file.little(72, 4); left > 0 && next < LARGEST; left--) {
                file.checkTime();
                take(next);
                for (int i = 0; i < sector / 4 - 1 && all.size() < count; i++) {
                    add(all, file.little(place(next) + 4L * i, 4));
                }
                next = file.little(place(next) + sector - 4, 4);
            }
            if (all.size() != count) {
                throw new IOException("allocation table of " + count + " sectors");
            }
            return all;
        }

        private void add(List<Long> all, long number) throws IOException {
            take(number);
            all.add(number);
        }

        private void take(long number) throws IOException {
            if (number >= sectors || taken.get((int) number)) {
                throw new IOException("sector " + number + (number >= sectors ? " does not exist" : " is used twice"));
            }
            taken.set((int) number);
        }

        /** Follows a chain; its length must be the expected one, unless that is -1. */
        private List<Long> chain(long first, long expected) throws IOException {
            List<Long> all = new ArrayList<>();
            for (long at = first; at != END && !(at == FREE && all.isEmpty()); at = table[(int) at]) {
                add(all, at);
                if (at >= table.length) {
                    throw new IOException("chain leaves the table at " + at);
                }
            }
            if (expected >= 0 && all.size() != expected) {
                throw new IOException("chain of " + all.size() + " sectors instead of " + expected);
            }
            return all;
        }

        private TestResult entry(long at, long cutoff, long entries, long version) throws IOException {
            int kind = (int) file.little(at + 66, 1);
            long name = file.little(at + 64, 2);
            if (kind == 0) {
                return null;
            }
            if (kind != 1 && kind != 2 && kind != 5 || name > 64 || name < 2 || (name & 1) != 0 || file.little(at + name - 2, 2) != 0) {
                return TestResult.damaged("test.form", at, "directory entry of kind " + kind);
            }
            for (int link = 68; link <= 76; link += 4) {
                long to = file.little(at + link, 4);
                if (to != FREE && to >= entries) {
                    return TestResult.damaged("test.form", at, "link " + to);
                }
            }
            long size = version == 3 ? file.little(at + 120, 4) : file.little(at + 120, 8);
            if (kind != 1 && size > 0 && (kind == 5 || size >= cutoff)) {
                chain(file.little(at + 116, 4), (size + sector - 1) / sector);
            }
            return null;
        }
    }
}
