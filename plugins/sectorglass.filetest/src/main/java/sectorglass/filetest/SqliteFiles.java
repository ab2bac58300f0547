package sectorglass.filetest;

import java.io.IOException;
import java.util.List;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import org.osgi.service.component.annotations.Component;
import sectorglass.recovery.opening.FileTest;
import sectorglass.recovery.opening.FileType;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestedFile;

/** SQLite 3 databases: header, size, and every page of every tree (SQLite, "Database File Format", sections 1.3 to 1.8). Pages carry no checksum. */
@Component(service = FileTest.class)
@ServiceProvider(value = FileTest.class, resolution = Resolution.OPTIONAL)
public final class SqliteFiles implements FileTest {
    private static final FileType SQLITE = FileType.of("sqlite", "SQLite 3", "sqlite sqlite3 db db3 sqlitedb", 0, "SQLite format 3\0");

    @Override
    public List<FileType> types() {
        return List.of(SQLITE);
    }

    @Override
    public TestResult test(FileType type, TestedFile file) throws IOException {
        long size = file.big(16, 2);
        size = size == 1 ? 65536 : size;
        long reserved = file.big(20, 1);
        if (size < 512 || Long.bitCount(size) != 1 || reserved > size - 480 || file.big(21, 3) != 0x402020) {
            return TestResult.damaged("test.header", 0L, "page size " + size);
        }
        long pages = file.bytes() / size;
        long stored = file.big(28, 4);
        boolean storedCounts = file.big(24, 4) == file.big(92, 4) && stored != 0;
        if (file.bytes() % size != 0 || storedCounts && stored > pages) {
            return TestResult.damaged("test.table", "pages", stored + " / " + pages);
        }
        pages = storedCounts ? stored : pages;
        if (pages > 1 << 28) {
            return TestResult.notTested("test.limits");
        }
        try {
            return new SqliteTrees(file, (int) size, (int) (size - reserved), (int) pages).test();
        } catch (SqliteTrees.Wrong e) {
            return TestResult.damaged("test.form", e.at(), e.getMessage());
        }
    }
}
