package sectorglass.ntfs;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

import org.junit.jupiter.api.Assumptions;

import sectorglass.testkit.Tool;

/** A volume mounted through FUSE for writing; the calling test is skipped where that is not possible. */
final class Mounted implements AutoCloseable {
    private final Path image;
    private final Path mount;

    Mounted(Path image) throws IOException {
        Tool.require("ntfs-3g", "fusermount", "setfattr");
        Assumptions.assumeTrue(Files.isWritable(Path.of("/dev/fuse")), "no FUSE device");
        this.image = image;
        mount = Files.createTempDirectory(image.getParent(), "mount");
        Tool.Result result = Tool.run("ntfs-3g", "-o", "streams_interface=windows,compression", image.toString(), mount.toString());
        Assumptions.assumeTrue(result.status() == 0, "FUSE mount refused: " + result.out());
    }

    Path path(String name) {
        return mount.resolve(name);
    }

    /** A file of that many bytes in a folder. */
    void write(String name, byte[] bytes) throws IOException {
        Files.write(path(name), bytes);
    }

    @Override
    public void close() {
        Tool.Result result = Tool.run("fusermount", "-u", mount.toString());
        for (int i = 0; i < 50 && result.status() != 0; i++) {
            Tool.run("sleep", "0.1");
            result = Tool.run("fusermount", "-u", mount.toString());
        }
        result.ok();
        for (int i = 0; i < 100 && driverRuns(); i++) {
            Tool.run("sleep", "0.1");
        }
    }

    /** The driver writes its last blocks after the folder is free again. */
    private boolean driverRuns() {
        return ProcessHandle.allProcesses().anyMatch(p -> p.info().commandLine().orElse("").contains(image.toString()));
    }
}
