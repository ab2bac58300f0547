package sectorglass.filetest;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.zip.GZIPInputStream;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import org.apache.commons.compress.PasswordRequiredException;
import org.apache.commons.compress.archivers.sevenz.SevenZArchiveEntry;
import org.apache.commons.compress.archivers.sevenz.SevenZFile;
import org.apache.commons.compress.compressors.bzip2.BZip2CompressorInputStream;
import org.osgi.service.component.annotations.Component;
import org.tukaani.xz.MemoryLimitException;
import org.tukaani.xz.XZInputStream;
import sectorglass.recovery.opening.FileTest;
import sectorglass.recovery.opening.FileType;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestedFile;

/**
 * Archives and compressed files. gzip, bzip2, xz and 7z are unpacked whole, which compares their checksums; the headers of tar have their sums
 * compared (POSIX.1-2017, pax, "ustar Interchange Format"), its members have none.
 */
@Component(service = FileTest.class)
@ServiceProvider(value = FileTest.class, resolution = Resolution.OPTIONAL)
public final class Archives implements FileTest {
    private static final int MEMORY_KIB = 256 << 10;
    private static final int BLOCK = 512;

    private static final FileType GZIP = FileType.of("gzip", "gzip", "gz tgz svgz", 0, "\u001F\u008B\b");
    private static final FileType BZIP2 = new FileType("bzip2", "bzip2", List.of("bz2", "tbz2"),
            head -> FileType.has(head, 0, "BZh") && FileType.has(head, 4, "1AY&SY"));
    private static final FileType XZ = FileType.of("xz", "xz", "xz txz", 0, "\u00FD7zXZ\0");
    private static final FileType SEVEN = FileType.of("7z", "7z", "7z", 0, "7z\u00BC\u00AF\u0027\u001C");
    private static final FileType TAR = FileType.of("tar", "tar", "tar", 257, "ustar");
    private static final FileType RAR = FileType.of("rar", "RAR", "rar", 0, "Rar!\u001A\u0007");

    @Override
    public List<FileType> types() {
        return List.of(GZIP, BZIP2, XZ, SEVEN, TAR, RAR);
    }

    @Override
    public TestResult test(FileType type, TestedFile file) throws IOException {
        return switch (type.id()) {
            case "gzip" -> unpack(new GZIPInputStream(file.stream(), 1 << 16));
            case "bzip2" -> unpack(new BZip2CompressorInputStream(file.stream(), true));
            case "xz" -> xz(file);
            case "7z" -> seven(file);
            case "tar" -> tar(file);
            default -> TestResult.notTested("test.decoder");
        };
    }

    private static TestResult unpack(InputStream open) throws IOException {
        byte[] buffer = new byte[1 << 16];
        try (InputStream in = open) {
            while (in.read(buffer) >= 0) {
                // the checksums are compared at the end of each part
            }
        }
        return TestResult.opened();
    }

    private static TestResult xz(TestedFile file) throws IOException {
        try {
            return unpack(new XZInputStream(file.stream(), MEMORY_KIB));
        } catch (MemoryLimitException e) {
            return TestResult.notTested("test.limits");
        }
    }

    private static TestResult seven(TestedFile file) throws IOException {
        byte[] buffer = new byte[1 << 16];
        try (SevenZFile archive = SevenZFile.builder().setSeekableByteChannel(new ByteChannel(file)).setMaxMemoryLimitKb(MEMORY_KIB).get()) {
            for (SevenZArchiveEntry entry = archive.getNextEntry(); entry != null; entry = archive.getNextEntry()) {
                file.checkTime();
                while (entry.hasStream() && archive.read(buffer) >= 0) {
                    // the checksum is compared at the end
                }
            }
            return TestResult.opened();
        } catch (PasswordRequiredException e) {
            return TestResult.notTested("test.password");
        } catch (org.apache.commons.compress.MemoryLimitException e) {
            return TestResult.notTested("test.limits");
        }
    }

    private static TestResult tar(TestedFile file) throws IOException {
        for (long at = 0; at < file.bytes();) {
            byte[] header = file.bytes(at, (int) Math.min(BLOCK, file.bytes() - at));
            if (header.length < BLOCK) {
                return TestResult.damaged("test.end");
            }
            int sum = 0;
            boolean zero = true;
            for (int i = 0; i < BLOCK; i++) {
                zero &= header[i] == 0;
                sum += i >= 148 && i < 156 ? ' ' : header[i] & 0xFF;
            }
            if (zero) {
                return zeroToTheEnd(file, at) ? TestResult.sound() : TestResult.damaged("test.form", at, "empty header before the end");
            }
            long stored = octal(header, 148, 8);
            long size = octal(header, 124, 12);
            if (stored != sum || size < 0) {
                return TestResult.damaged("test.header", at, stored + " / " + sum);
            }
            long blocks = header[156] >= '1' && header[156] <= '6' ? 0 : (size + BLOCK - 1) / BLOCK;
            if (blocks > (file.bytes() - at) / BLOCK) {
                return TestResult.damaged("test.size", "member", at);
            }
            at += BLOCK + blocks * BLOCK;
        }
        return TestResult.damaged("test.end");
    }

    private static boolean zeroToTheEnd(TestedFile file, long from) throws IOException {
        byte[] some = new byte[1 << 14];
        for (long at = from; at < file.bytes();) {
            int n = (int) Math.min(some.length, file.bytes() - at);
            file.read(at, some, 0, n);
            for (int i = 0; i < n; i++) {
                if (some[i] != 0) {
                    return false;
                }
            }
            at += n;
        }
        return true;
    }

    /** An octal number, or a binary one where its first bit is set (GNU tar); -1 where it is neither. */
    private static long octal(byte[] from, int at, int length) {
        long value = 0;
        if ((from[at] & 0x80) != 0) {
            for (int i = at + length - 8; i < at + length; i++) {
                value = value << 8 | from[i] & 0xFF;
            }
            return value;
        }
        for (int i = at; i < at + length; i++) {
            int c = from[i];
            if (c >= '0' && c <= '7') {
                value = value * 8 + c - '0';
            } else if (c != ' ' && c != 0) {
                return -1;
            }
        }
        return value;
    }
}
