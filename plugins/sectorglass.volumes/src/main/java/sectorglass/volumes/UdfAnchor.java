package sectorglass.volumes;

import java.util.List;
import java.util.Optional;

import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/**
 * The anchor of a UDF volume. Source: ECMA-167, 3/10.2 and 3/7.2.
 *
 * @param sector its sector
 * @param sectorSize bytes per sector
 */
record UdfAnchor(long sector, int sectorSize) {
    private static final List<Integer> SIZES = List.of(2048, 512, 1024, 4096);

    /** Byte from the start of the volume. */
    long at() {
        return sector * sectorSize;
    }

    /** NSR02 or NSR03 between BEA01 and TEA01, in descriptors of 2048 bytes or of one larger sector; null where there is none. */
    static String recognitionSequence(VolumeSite site) {
        for (int step : List.of(2048, 4096)) {
            for (int i = 0; i < 32; i++) {
                long at = 32768 + (long) step * i;
                if (!site.has(at, 512)) {
                    break;
                }
                Window w = site.window(at, 8);
                if (w.matches(1, "NSR02") || w.matches(1, "NSR03")) {
                    return w.ascii(1, 5);
                }
                if (!w.matches(1, "BEA01") && !w.matches(1, "CD001") && !w.matches(1, "CDW02") && !w.matches(1, "BOOT2")) {
                    break;
                }
            }
        }
        return null;
    }

    /** The places of anchors for a sector size: 256, the last sector and the one 256 before it. */
    static List<Long> places(VolumeSite site, int sectorSize) {
        long count = site.bytes() / sectorSize;
        return List.of(256L, count - 1, count - 257);
    }

    /** The first anchor that lies where it says it lies and whose tag holds. */
    static Optional<UdfAnchor> find(VolumeSite site) {
        for (int size : SIZES) {
            for (long sector : places(site, size)) {
                if (sector > 0 && site.has(sector * size, 512)) {
                    Window w = site.window(sector * size, 512);
                    if (w.u16le(0) == 2 && tagSum(w) == w.u8(4) && w.u32le(12) == (sector & 0xFFFFFFFFL)) {
                        return Optional.of(new UdfAnchor(sector, size));
                    }
                }
            }
        }
        return Optional.empty();
    }

    /** Sum of the 15 other bytes of the tag. */
    static int tagSum(Window w) {
        int sum = 0;
        for (int i = 0; i < 16; i++) {
            sum += i == 4 ? 0 : w.u8(i);
        }
        return sum & 0xFF;
    }

    /** CRC of polynomial 0x1021, start 0, most significant bit first. */
    static int crc(byte[] bytes) {
        int crc = 0;
        for (byte b : bytes) {
            crc ^= (b & 0xFF) << 8;
            for (int bit = 0; bit < 8; bit++) {
                crc = (crc & 0x8000) != 0 ? crc << 1 ^ 0x1021 : crc << 1;
            }
        }
        return crc & 0xFFFF;
    }
}
