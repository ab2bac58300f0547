package sectorglass.workbench.convert;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.ZoneId;
import java.util.List;
import java.util.Locale;

import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ConversionsTest {
    private final Locale before = Locale.getDefault();

    @BeforeEach
    void english() {
        Locale.setDefault(Locale.ENGLISH);
    }

    @AfterEach
    void back() {
        Locale.setDefault(before);
    }

    private static String forms(String typed) {
        return String.join("\n", Conversions.of(typed, 512, ZoneId.of("Europe/Berlin")).stream()
                .map(form -> form.label() + ": " + form.text().replace('\u2009', ' ')).toList());
    }

    @ParameterizedTest(name = "{0}: {2}")
    @CsvSource(delimiter = '|', value = {
        "0/32/33 | LBA: 2 048  =  0x800 | (0 x 255 + 32) x 63 + 33 - 1",
        "0/32/33 | As a partition entry packs it: 20 21 00 | UEFI 2.10, table Legacy MBR Partition Record: head, sector, cylinder",
        "0/0/1 | LBA: 0  =  0x0 | the first sector",
        "1023/254/63 | As a partition entry packs it: FE FF FF | the largest address; all tables of large disks hold it",
        "500 GB | Bytes: 500 000 000 000  =  0x746A528800 | 500 x 1000^3",
        "500 GB | Binary units: 465.661 GiB  =  0.455 TiB | 500e9 / 1024^3",
        "1 GiB | Sectors of 512: 2 097 152 | 2^30 / 2^9",
        "1000 B | Sectors of 512: 1 and 488 bytes | 1000 = 512 + 488",
        "1970-01-01 00:00 UTC | FILETIME: 116 444 736 000 000 000  =  0x019DB1DED53E8000 | Microsoft, Converting a time_t value to a file time",
        "1970-01-01 00:00 UTC | Seconds from 1904: 2 082 844 800  =  0x7C25B080 | Apple TN1150; 66 years with 17 leap days",
        "2026-07-01 12:00 | Date: 2026-07-01 10:00:00 UTC  =  2026-07-01 12:00:00 Europe/Berlin | summer time is two hours",
        "1980-01-01 00:00 | DOS date, time: 0x0021, 0x0000 | Microsoft FAT specification: year 0, month 1, day 1",
        "c12a7328-f81f-11d2-ba4b-00a0c93ec93b | Bytes, first three parts little endian: 28 73 2A C1 1F F8 D2 11 BA 4B 00 A0 C9 3E C9 3B | UEFI 2.10, appendix A, EFI system partition",
        "28732AC11FF8D211BA4B00A0C93EC93B | If the first three parts are little endian: c12a7328-f81f-11d2-ba4b-00a0c93ec93b | the same read back",
        "2048 | As an LBA: image byte 1 048 576, cylinder/head/sector 0/32/33 | 2048 x 512",
        "0x800 | Number: 2 048  =  0x800 | hex",
        "1048577 | As an image byte: LBA 2 048, byte 1 | 2048 x 512 + 1",
        "133485408000000000 | FILETIME: 2024-01-01 00:00:00 UTC  =  2024-01-01 01:00:00 Europe/Berlin | 154 years and 103 leap days after 1601, in days x 864e9",
    })
    void changesForms(String typed, String expected, String source) {
        assertTrue(forms(typed).contains(expected), forms(typed));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "  ", "abc", "0x", "12/300/1/2", "2026-13-01", "9999999999999999999999999999999999999999999999999",
        "1e999999999", "-", "GB", "{c12a7328}"})
    void saysNothingOfWhatIsNone(String typed) {
        assertEquals(List.of(), Conversions.of(typed, 512, ZoneId.of("UTC")));
    }

    @ParameterizedTest
    @ValueSource(strings = {"0/255/1", "0/0/0", "0/0/64"})
    void anAddressThatNoDiskHasIsNamed(String typed) {
        assertTrue(forms(typed).contains("no address"), forms(typed));
    }

    @ParameterizedTest
    @ValueSource(strings = {"18446744073709551615", "0xFFFFFFFFFFFFFFFF", "9223372036854775807", "99999999999999999999 PiB", "-5", "9999999/254/63"})
    void largeNumbersDoNotOverflow(String typed) {
        assertTrue(!Conversions.of(typed, 4096, ZoneId.of("UTC")).isEmpty());
    }
}
