package sectorglass.decode;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static sectorglass.decode.Specs.at;
import static sectorglass.decode.Specs.decode;

import java.util.Locale;

import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Values and meanings by unit; the source stands with each row or test. */
class UnitTextTest {
    private Locale before;

    @BeforeEach
    void english() {
        before = Locale.getDefault();
        Locale.setDefault(Locale.ENGLISH);
    }

    @AfterEach
    void back() {
        Locale.setDefault(before);
    }

    @ParameterizedTest(name = "{0} {1}: {5}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
            type: u4    | hex           | 55AA0000                         | 0x0000AA55 | -                                     | width of the type
            type: u4    | dec           | 00286BEE                         | 4_000_000_000 | -                                  | thin spaces
            type: u8    | bytes         | 0060C07074000000                 | 500_107_862_016 | 500.1 GB (465.8 GiB)             | 976,773,168 sectors of 512
            type: u4    | sectors512    | 0000A00F                         | 262_144_000 | 134.2 GB (125.0 GiB)                 | computed by hand
            size: 16    | guid          | 28732AC11FF8D211BA4B00A0C93EC93B | c12a7328-f81f-11d2-ba4b-00a0c93ec93b | -           | UEFI 2.10, 5.3.3, EFI System Partition
            size: 16    | uuid          | 28732AC11FF8D211BA4B00A0C93EC93B | 28732ac1-1ff8-d211-ba4b-00a0c93ec93b | -           | RFC 4122, 4.1.2
            size: 3     | chs           | 202100                           | 0/32/33 | C/H/S = 0/32/33, LBA 2_048 with 255 heads and 63 sectors | 32 * 63 + 32
            size: 3     | chs           | FEFFFF                           | 1023/254/63 | C/H/S = 1023/254/63: the limit of the form, the LBA tells the place | UEFI 2.10, 5.2.1
            type: u8    | filetime      | 00803ED5DEB19D01                 | 116_444_736_000_000_000 | 1970-01-01 00:00:00 UTC  | [MS-DTYP] 2.3.3: distance to 1970
            type: u4    | unix          | 00000000                         | 0 | not set                                        | house rule
            type: u4    | unix          | 80436D38                         | 946_684_800 | 2000-01-01 00:00:00 UTC              | POSIX.1-2017, 4.16
            type: u4    | mac-time      | 80DA25B4                         | 3_022_379_648 | 1999-10-10 05:54:08 UTC            | 3022379648 - 2082844800 = 939534848
            type: u2    | dos-date      | 215C                             | 23_585 | 2026-01-01                                | (2026-1980) << 9 | 1 << 5 | 1
            type: u2    | dos-time      | 6218                             | 6_242 | 03:03:04                                   | 3 << 11 | 3 << 5 | 4 / 2
            type: u2    | dos-date      | 0100                             | 1 | no possible date                               | month 0
            type: u1    | percent       | 0C                               | 12_% | -                                           | house rule
            type: u2    | signed        | FEFF                             | -2 | -                                             | two's complement
            size: 4     | ascii         | 4E5401FF                         | NT·· | -                                           | ISO 646
            """)
    void unit(String type, String unit, String hex, String value, String meaning, String source) {
        FieldNode node = at(decode("meta: {id: t, endian: le}\nseq:\n  - {id: a, " + type + ", -unit: " + unit + "}\n", hex), "a");
        assertEquals(value.replace('_', '\u2009'), node.value());
        assertEquals(meaning == null ? null : meaning.replace('_', '\u2009'), node.meaning());
        assertEquals(unit, node.unit());
    }

    @Test
    void flagsValuesAndLinks() {
        FieldNode root = decode("""
                meta: {id: t, endian: le}
                seq:
                  - {id: f, type: u2, -unit: flags, -flags: {0x1: read-only, 0x2: hidden, 0x10: directory}}
                  - {id: none, type: u1, -unit: flags, -flags: {0x1: read-only}}
                  - {id: v, type: u1, -values: {0xEE: protective}}
                  - {id: g, size: 16, -unit: guid, -values: {c12a7328-f81f-11d2-ba4b-00a0c93ec93b: boot files}}
                  - {id: l, type: u4, -link: lba, -format: gpt_header}
                """, "1180 00 EE 28732AC11FF8D211BA4B00A0C93EC93B 00010000");
        assertEquals("0x8011", at(root, "f").value());
        assertEquals("read-only, directory, 0x8000 not assigned in this format", at(root, "f").meaning());
        assertEquals("none set", at(root, "none").meaning());
        assertEquals("protective", at(root, "v").meaning());
        assertEquals("boot files", at(root, "g").meaning());
        assertEquals(new FieldNode.Link("lba", 256, "gpt_header"), at(root, "l").link());
    }

    @Test
    void unsigned64BitNumbers() {
        FieldNode root = decode("""
                meta: {id: t, endian: le}
                seq: [{id: a, type: u8, valid: {max: 10}}]
                instances:
                  big: {value: a > 5}
                """, "FFFFFFFFFFFFFFFF");
        assertEquals("18_446_744_073_709_551_615".replace('_', '\u2009'), at(root, "a").value());
        assertEquals(-1L, at(root, "a").raw());
        assertEquals(true, at(root, "a").unsigned64());
        assertEquals(FieldNode.State.VIOLATED, at(root, "a").state());
        assertEquals(true, at(root, "big").raw());
    }

    @Test
    void germanSentences() {
        Locale.setDefault(Locale.GERMAN);
        FieldNode root = decode("{meta: {id: t}, seq: [{id: a, type: u1}]}", "");
        assertEquals("1 Bytes werden gebraucht, aber nur 0 sind da", at(root, "a").problem());
    }

    @Test
    void invisibleCharactersAreSpelledOut() {
        FieldNode root = decode("{meta: {id: t, encoding: UTF-8}, seq: [{id: a, type: str, size: 3}]}", "411B5B");
        assertEquals("A\\u{1B}[", at(root, "a").value());
    }
}
