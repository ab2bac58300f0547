package sectorglass.volumes;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import sectorglass.disk.HeaderVolume;
import sectorglass.disk.Role;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** LUKS header version 2, big endian, twice on the volume. Source: libblkid superblock prober for LUKS (util-linux). */
final class Luks2 {
    /** The largest header that the format knows. */
    private static final long LARGEST = 0x400000;

    private Luks2() {
    }

    /** Bytes of the header with its JSON, or -1 where the field holds no legal size. */
    static int size(Window binary) {
        long size = binary.u64be(8);
        return VolumeFacts.power(size, 0x4000, LARGEST) ? (int) size : -1;
    }

    /** SHA-256 of the header with its checksum field taken as zero. */
    static byte[] sum(Window header) {
        byte[] bytes = header.bytes(0, header.length());
        Arrays.fill(bytes, 448, 512, (byte) 0);
        try {
            return MessageDigest.getInstance("SHA-256").digest(bytes);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    /** Whether the header at the byte has a legal size, says SHA-256 and holds. */
    static boolean sumHolds(VolumeSite site, long at) {
        Window binary = site.window(at, 512);
        int size = size(binary);
        return size > 0 && "sha256".equals(VolumeFacts.text(binary, 72, 32, StandardCharsets.US_ASCII))
                && Arrays.equals(sum(site.window(at, size)), binary.bytes(448, 32));
    }

    /** @param at byte of the header to believe */
    static Volume open(VolumeSite site, long at) {
        Window w = site.window(at, 512);
        VolumeFacts facts = new VolumeFacts();
        VolumeFacts.known(() -> {
            facts.uuid = VolumeFacts.text(w, 168, 40, StandardCharsets.US_ASCII);
            return facts.label = VolumeFacts.text(w, 24, 48, StandardCharsets.UTF_8);
        });
        facts.remarks.add("encrypted: content cannot be read without the key");
        if (at != 0) {
            facts.remarks.add("read from the second header at byte " + at);
        }
        Integer size = VolumeFacts.known(() -> size(w));
        int length = size == null || size < 0 ? 4096 : size;
        List<Structure> structures = new ArrayList<>();
        for (long place : at == 0 ? new long[] {0, length} : new long[] {0, at}) {
            VolumeHeader header = new VolumeHeader(site, place, (int) Math.min(length, Math.max(0, site.bytes() - place)));
            if (header.length() >= 4096) {
                structures.add(header.structure(place == 0 ? "LUKS header" : "second LUKS header", "luks2_header"));
            }
        }
        return new HeaderVolume(facts.info("luks2", site), site, List.copyOf(structures),
                List.of(Role.of(Role.Kind.ENCRYPTED, "LUKS header version 2")), (level, out) -> LuksChecks.copies(site, at, out));
    }
}
