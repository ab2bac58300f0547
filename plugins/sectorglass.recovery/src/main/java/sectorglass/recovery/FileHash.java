package sectorglass.recovery;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

import sectorglass.image.Progress;

/** The SHA-256 of a file. */
public final class FileHash {
    private static final int PIECE = 1 << 19;

    private FileHash() {
    }

    /** Reads a file and gives its SHA-256, lower case hex. */
    public static String sha256(Path file, Progress progress) throws IOException {
        try (FileChannel in = FileChannel.open(file, StandardOpenOption.READ);
                HashAhead hash = new HashAhead((int) Math.min(PIECE, Math.max(1, in.size())))) {
            while (true) {
                progress.checkCancelled();
                byte[] buffer = hash.buffer();
                int length = in.read(ByteBuffer.wrap(buffer));
                if (length < 0) {
                    return hash.hex();
                }
                hash.update(length);
            }
        }
    }
}
