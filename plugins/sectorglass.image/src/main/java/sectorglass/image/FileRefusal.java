package sectorglass.image;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;

/** Says in a sentence why a file cannot be opened. */
final class FileRefusal {
    private static final int TYPE = 0xF000;
    private static final int BLOCK_DEVICE = 0x6000;
    private static final int CHARACTER_DEVICE = 0x2000;

    private FileRefusal() {
    }

    /** The sentence for a failure. */
    static ImageException of(Texts texts, Path file, IOException e) {
        String key;
        if (e instanceof AccessDeniedException) {
            key = "file.denied";
        } else if (e instanceof NoSuchFileException || e instanceof FileNotFoundException) {
            key = "file.missing";
        } else {
            key = Files.isDirectory(file) ? "file.directory" : "file.failed";
        }
        String words = e instanceof FileSystemException f && f.getReason() != null ? f.getReason() : String.valueOf(e.getMessage());
        return new ImageException(texts.of(key, file, words), e);
    }

    /** Looks at what the path leads to before it is opened. */
    static void check(Texts texts, Path file, boolean deviceAnyway) throws ImageException {
        try {
            if (file.toString().startsWith("\\\\.\\")) {
                device(texts, file, deviceAnyway);
                return;
            }
            BasicFileAttributes attributes = Files.readAttributes(file, BasicFileAttributes.class);
            if (attributes.isDirectory()) {
                throw texts.refusal("file.directory", file);
            }
            if (attributes.isOther()) {
                if (!isDevice(file)) {
                    throw texts.refusal("file.pipe", file);
                }
                device(texts, file, deviceAnyway);
            }
        } catch (IOException e) {
            throw of(texts, file, e);
        }
    }

    private static void device(Texts texts, Path file, boolean anyway) throws ImageException {
        if (!anyway) {
            throw texts.refusal("file.device", file);
        }
    }

    /** Whether the path leads to a device. */
    static boolean isDevicePath(Path file) {
        try {
            return file.toString().startsWith("\\\\.\\")
                    || Files.readAttributes(file, BasicFileAttributes.class).isOther() && isDevice(file);
        } catch (IOException e) {
            return false;
        }
    }

    private static boolean isDevice(Path file) throws IOException {
        if (!file.getFileSystem().supportedFileAttributeViews().contains("unix")) {
            return true;
        }
        int type = (Integer) Files.getAttribute(file, "unix:mode", new LinkOption[0]) & TYPE;
        return type == BLOCK_DEVICE || type == CHARACTER_DEVICE;
    }
}
