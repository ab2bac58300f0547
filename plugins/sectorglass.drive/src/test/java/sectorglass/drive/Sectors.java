package sectorglass.drive;

import java.nio.charset.StandardCharsets;

import sectorglass.image.ReadState;
import sectorglass.image.SectorStates;
import sectorglass.image.Window;

/** Sectors made for tests; no real drive. */
final class Sectors {
    private Sectors() {
    }

    static void put(byte[] sector, int at, int... values) {
        for (int i = 0; i < values.length; i++) {
            sector[at + i] = (byte) values[i];
        }
    }

    private static void swapped(byte[] sector, int at, String text) {
        byte[] bytes = text.getBytes(StandardCharsets.US_ASCII);
        for (int i = 0; i < bytes.length; i++) {
            sector[at + (i ^ 1)] = bytes[i];
        }
    }

    /** An invented 1000 GB drive. */
    static byte[] identify() {
        byte[] s = new byte[512];
        put(s, 0, 0x40, 0);
        put(s, 2, 0xFF, 0x3F);
        put(s, 6, 0x10, 0);
        put(s, 12, 0x3F, 0);
        swapped(s, 20, "            TEST0001");
        swapped(s, 46, "FW01    ");
        swapped(s, 54, "EXAMPLE DISK 1000                       ");
        put(s, 98, 0, 0x2F);
        put(s, 106, 7, 0);
        put(s, 120, 0xFF, 0xFF, 0xFF, 0x0F);
        put(s, 152, 0x0E, 0);
        put(s, 160, 0xF0, 1);
        put(s, 166, 0, 0x74);
        put(s, 200, 0xB0, 0x6D, 0x70, 0x74);
        put(s, 212, 3, 0x60);
        put(s, 256, 0x21, 0);
        put(s, 418, 0, 0x40);
        put(s, 434, 0x20, 0x1C);
        put(s, 510, 0xA5, 0xC1);
        return s;
    }

    static byte[] smart() {
        byte[] s = new byte[512];
        put(s, 0, 0x10, 0, 5, 0x33, 0, 0x64, 0x64, 8, 0, 0, 0, 0, 0, 0, 0xC5, 0x32, 0, 0x64, 0x64, 3, 0, 0, 0, 0, 0, 0, 0xC6, 0x30, 0, 0x64,
                0x64, 2);
        put(s, 511, 0x66);
        return s;
    }

    static byte[] thresholds(int limit) {
        byte[] s = new byte[512];
        put(s, 0, 0x10, 0, 5, limit);
        put(s, 14, 0xC5, 0);
        put(s, 511, -(0x10 + 5 + limit + 0xC5));
        return s;
    }

    static Window read(byte[] sector) {
        return Window.ofRead(sector, 0, 512);
    }

    static Window unread(byte[] sector) {
        return new Window(sector, 0, SectorStates.of(512, 0, ReadState.FAILED));
    }
}
