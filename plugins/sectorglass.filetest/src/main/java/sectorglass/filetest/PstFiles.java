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

/**
 * Mail stores of the forms PST and OST: both checksums of the header, every page of both trees, every block that they list, the allocation maps ([MS-PST], sections
 * 2.2.2.6 to 2.2.2.8; all values from memory, held against stores that the original program wrote). What the blocks hold is not read. The old
 * form with 32-bit places is recognised and not tested; the form with pages of 4096 bytes, which the specification does not describe, is
 * tested as it was met.
 */
@Component(service = FileTest.class)
@ServiceProvider(value = FileTest.class, resolution = Resolution.OPTIONAL)
public final class PstFiles implements FileTest {
    private static final FileType PST = FileType.of("pst", "mail store (PST)", "pst ost", 0, "!BDN");
    /** Version of the form with 64-bit places, and of that with large pages; from memory. */
    private static final int UNICODE = 23;
    private static final int LARGE = 36;

    @Override
    public List<FileType> types() {
        return List.of(PST);
    }

    @Override
    public TestResult test(FileType type, TestedFile file) throws IOException {
        long version = file.little(10, 2);
        if (version < UNICODE) {
            return TestResult.notTested("test.decoder");
        }
        // dwCRCPartial at 4 over 471 bytes from 8; dwCRCFull at 524 over 516 bytes from 8
        if (file.little(4, 4) != PstCrc.of(file.bytes(8, 471), 471) || file.little(524, 4) != PstCrc.of(file.bytes(8, 516), 516)) {
            return TestResult.damaged("test.chunk", "HEADER", 0L);
        }
        if (file.little(512, 1) != 0x80) {
            return TestResult.damaged("test.header", 512L, "bSentinel " + file.little(512, 1));
        }
        long end = file.little(184, 8); // ROOT.ibFileEof
        if (end < 0 || end > file.bytes()) {
            return TestResult.damaged("test.table", "ibFileEof", end + " / " + file.bytes());
        }
        try {
            new PstTrees(file, version >= LARGE).test();
            return TestResult.sound();
        } catch (PstTrees.Wrong e) {
            return e.result();
        }
    }
}
