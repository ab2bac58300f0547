package sectorglass.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.recovery.Job.Mark;

class MarksOutTest {
    private static final List<Mark> MARKS = List.of(new Mark(520, 8, "a \"quoted\" name", "two\nlines"), new Mark(0, 1, "=1+1", null));

    @TempDir
    Path folder;

    /** Quotes are doubled and line breaks stay inside quotes: RFC 4180, section 2, rules 6 and 7. */
    @Test
    void csvIsQuotedAndNoNameIsComputed() throws IOException {
        Path file = folder.resolve("marks.csv");
        MarksOut.write(file, MARKS, 512, null);
        assertEquals("name,firstByte,length,lba,byteInSector,note\r\n\"a \"\"quoted\"\" name\",520,8,1,8,\"two\nlines\"\r\n\"'=1+1\",0,1,0,0,\r\n",
                Files.readString(file, StandardCharsets.UTF_8));
    }

    @Test
    void jsonHoldsEveryField() throws IOException {
        Path file = folder.resolve("marks.json");
        MarksOut.write(file, MARKS, 512, null);
        assertEquals("{\"marks\":[{\"name\":\"a \\\"quoted\\\" name\",\"firstByte\":520,\"length\":8,\"lba\":1,\"byteInSector\":8,\"note\":\"two\\nlines\"},"
                + "{\"name\":\"=1+1\",\"firstByte\":0,\"length\":1,\"lba\":0,\"byteInSector\":0,\"note\":null}]}", Files.readString(file).strip());
    }

    @Test
    void theImageIsNeverWritten() throws IOException {
        Path image = Files.write(folder.resolve("disk.img"), new byte[512]);
        assertThrows(IOException.class, () -> MarksOut.write(image, MARKS, 512, image));
        assertEquals(512, Files.size(image));
    }
}
