package sectorglass.image;

import java.nio.charset.StandardCharsets;
import java.util.List;

/** Provided parts for tests: landmarks as MBR and GPT have them, and a clue to the sector size in plain text. */
public final class TestClues implements Landmarks, SectorSizeClue {
    /** UEFI 2.10, section 5.2.1: 55 AA at 510; section 5.3.2: "EFI PART" at the beginning of LBA 1. */
    private static final List<Landmark> LANDMARKS = List.of(
            new Landmark("MBR signature", 0, 510, new byte[] {0x55, (byte) 0xAA}, 10),
            new Landmark("GPT signature", 1, 0, "EFI PART".getBytes(StandardCharsets.US_ASCII), 50),
            new Landmark("volume name", -1, 3, "TESTVOLM".getBytes(StandardCharsets.US_ASCII), 40));

    @Override
    public List<Landmark> landmarks() {
        return LANDMARKS;
    }

    @Override
    public List<Clue> look(SectorImage image) {
        Window window = image.window(0, 64);
        return switch (window.isRead(0, 64) ? window.ascii(0, 8) : "") {
            case "sectors4" -> List.of(new Clue(4096, 60, "text at byte 0"), new Clue(512, 30, "another text"));
            case "unread  " -> List.of(new Clue(image.window(1 << 30, 2).u16le(0), 1, "never"));
            default -> List.of();
        };
    }

    /** Says that a volume begins at sector 8 of its disk. */
    public static final class Start implements DumpFormClue {
        @Override
        public List<DumpForm.Clue> look(SectorImage stored) {
            Window window = stored.window(0, 8);
            return window.matches(0, "volume 8")
                    ? List.of(new DumpForm.Clue(DumpForm.PLAIN.withFirstImageByte(4096), 50, "the volume says so")) : List.of();
        }
    }
}
