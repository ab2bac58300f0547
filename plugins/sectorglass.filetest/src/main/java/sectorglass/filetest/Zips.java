package sectorglass.filetest;

import java.io.IOException;
import java.io.InputStream;
import java.util.Collections;
import java.util.List;
import java.util.zip.CRC32;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import org.apache.commons.compress.archivers.zip.ZipArchiveEntry;
import org.apache.commons.compress.archivers.zip.ZipFile;
import org.osgi.service.component.annotations.Component;
import sectorglass.recovery.opening.FileTest;
import sectorglass.recovery.opening.FileType;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestedFile;

/**
 * ZIP archives, and the documents that are ones: every member is unpacked, its CRC-32 and size compared, and what its own header says compared
 * with the directory (PKWARE APPNOTE 6.3.10, sections 4.3.7 and 4.3.12).
 */
@Component(service = FileTest.class)
@ServiceProvider(value = FileTest.class, resolution = Resolution.OPTIONAL)
public final class Zips implements FileTest {
    private static final String LOCAL = "PK\u0003\u0004";
    private static final FileType OOXML = member("ooxml", "Office Open XML", "docx docm dotx xlsx xlsm pptx pptm", "[Content_Types].xml");
    private static final FileType ODF = member("opendocument", "OpenDocument", "odt ods odp odg", "mimetypeapplication/vnd.oasis");
    private static final FileType EPUB = member("epub", "EPUB", "epub", "mimetypeapplication/epub+zip");
    private static final FileType ZIP = new FileType("zip", "ZIP",
            List.of("zip", "jar", "docx", "docm", "dotx", "xlsx", "xlsm", "pptx", "pptm", "odt", "ods", "odp", "odg", "epub", "apk", "pages", "numbers", "key"),
            head -> FileType.has(head, 0, LOCAL) || FileType.has(head, 0, "PK\u0005\u0006"));

    private static FileType member(String id, String name, String endings, String first) {
        return new FileType(id, name, List.of(endings.split(" ")), head -> FileType.has(head, 0, LOCAL) && FileType.has(head, 30, first));
    }

    @Override
    public List<FileType> types() {
        return List.of(OOXML, ODF, EPUB, ZIP);
    }

    @Override
    public TestResult test(FileType type, TestedFile file) throws IOException {
        int locked = 0;
        int unknown = 0;
        int members = 0;
        byte[] buffer = new byte[1 << 16];
        try (ZipFile zip = ZipFile.builder().setSeekableByteChannel(new ByteChannel(file)).setIgnoreLocalFileHeader(true).get()) {
            for (ZipArchiveEntry entry : Collections.list(zip.getEntriesInPhysicalOrder())) {
                file.checkTime();
                members++;
                TestResult header = header(file, entry);
                if (header != null) {
                    return header;
                }
                if (entry.getGeneralPurposeBit().usesEncryption()) {
                    locked++;
                    continue;
                }
                if (!zip.canReadEntryData(entry)) {
                    unknown++;
                    continue;
                }
                CRC32 crc = new CRC32();
                long size = 0;
                try (InputStream in = zip.getInputStream(entry)) {
                    for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
                        crc.update(buffer, 0, n);
                        size += n;
                    }
                } catch (IOException e) {
                    return TestResult.damaged("test.member", entry.getName(), String.valueOf(e.getMessage()));
                }
                if (crc.getValue() != (entry.getCrc() & 0xFFFFFFFFL) || size != entry.getSize()) {
                    return TestResult.damaged("test.crc", entry.getName());
                }
            }
        }
        if (locked > 0) {
            return TestResult.notTested("test.password");
        }
        if (unknown > 0 && unknown == members) {
            return TestResult.notTested("test.decoder");
        }
        return TestResult.opened();
    }

    /** The member's own header beside the directory; null where they agree. */
    private static TestResult header(TestedFile file, ZipArchiveEntry entry) throws IOException {
        long at = entry.getLocalHeaderOffset();
        if (at < 0 || !file.text(at, 4).equals(LOCAL)) {
            return TestResult.damaged("test.header", at, entry.getName());
        }
        byte[] raw = entry.getRawName();
        int length = (int) file.little(at + 26, 2);
        boolean later = (file.little(at + 6, 2) & 8) != 0;
        boolean same = length == raw.length && java.util.Arrays.equals(raw, file.bytes(at + 30, length)) && file.little(at + 8, 2) == entry.getMethod()
                && (later && file.little(at + 14, 4) == 0 || file.little(at + 14, 4) == (entry.getCrc() & 0xFFFFFFFFL));
        return same ? null : TestResult.damaged("test.differ", entry.getName());
    }
}
