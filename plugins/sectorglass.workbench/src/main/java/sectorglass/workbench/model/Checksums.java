package sectorglass.workbench.model;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.function.BooleanSupplier;
import java.util.zip.CRC32;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorStates;

/**
 * Checksums of a stretch of an image.
 *
 * @param crc32 as in GPT headers, eight hex digits, or null where a byte was not read
 * @param sha256 lower case hex, or null where a byte was not read
 * @param unreadSectors sectors that prevent the answer
 */
public record Checksums(String crc32, String sha256, long unreadSectors) {
    private static final int CHUNK = 1 << 20;

    /**
     * Computes them.
     *
     * @param stopped asked between pieces; true ends the work
     * @return null where it was stopped
     */
    public static Checksums of(SectorImage image, ByteRange range, BooleanSupplier stopped) {
        CRC32 crc = new CRC32();
        MessageDigest sha;
        try {
            sha = MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e); // every Java has it
        }
        byte[] buffer = new byte[(int) Math.min(CHUNK, Math.max(1, range.length()))];
        long unread = 0;
        for (long at = range.start(); at < range.end(); at += buffer.length) {
            if (stopped.getAsBoolean()) {
                return null;
            }
            int length = (int) Math.min(buffer.length, range.end() - at);
            SectorStates states = image.read(at, buffer, 0, length);
            if (!states.allRead()) {
                unread += states.missing(at, length).count();
            }
            crc.update(buffer, 0, length);
            sha.update(buffer, 0, length);
        }
        return unread > 0 ? new Checksums(null, null, unread)
                : new Checksums(HexFormat.of().withUpperCase().toHexDigits((int) crc.getValue()), HexFormat.of().formatHex(sha.digest()), 0);
    }
}
