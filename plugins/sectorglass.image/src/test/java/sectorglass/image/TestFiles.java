package sectorglass.image;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** Files that tests make, and what they look like afterwards. */
final class TestFiles {

    private TestFiles() {
    }

    /** A file whose every byte tells its position: the byte at i is a mix of i and i / 251. */
    static Path numbered(Path file, int bytes) {
        try {
            return Files.write(file, numbers(0, bytes));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Bytes as {@link #numbered} writes them, from a position on. */
    static byte[] numbers(long from, int count) {
        byte[] bytes = new byte[count];
        for (int i = 0; i < count; i++) {
            bytes[i] = number(from + i);
        }
        return bytes;
    }

    static byte number(long at) {
        return (byte) (at + at / 251 * 7 + 1);
    }

    static String sha256(Path file) throws IOException {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(file)));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }

    static Path write(Path file, String text) {
        try {
            return Files.writeString(file, text);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
