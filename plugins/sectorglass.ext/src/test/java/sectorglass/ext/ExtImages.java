package sectorglass.ext;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;

import sectorglass.testkit.Tool;

/** Volumes that mke2fs makes and debugfs fills, always the same bytes: fixed identity, hash seed and time. */
final class ExtImages {
    static final String UUID = "11111111-2222-4333-8444-555555555555";
    private static final Map<String, String> TIME = Map.of("E2FSPROGS_FAKE_TIME", "1700000000", "E2FSCK_TIME", "1700000000", "TZ", "UTC");
    private static Path folder;

    private ExtImages() {
    }

    /** Bytes of a made volume: e2, e3, e4, e4u, e4h or e4seed; skips the test where the makers are not installed. */
    static synchronized byte[] image(String name) {
        Tool.require("mke2fs", "debugfs", "e2fsck");
        try {
            if (folder == null) {
                folder = Files.createTempDirectory("ext");
                sources();
            }
            Path file = folder.resolve(name + ".img");
            if (!Files.exists(file)) {
                make(name, file);
            }
            return Files.readAllBytes(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** A scratch file with these bytes. */
    static Path file(byte[] bytes) {
        try {
            return Files.write(Files.createTempFile(folder, "copy", ".img"), bytes);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static byte[] bigFile() {
        byte[] bytes = new byte[200000];
        for (int i = 0; i < bytes.length; i++) {
            bytes[i] = (byte) (7 * i + i / 256);
        }
        return bytes;
    }

    static byte[] sparseFile() {
        byte[] bytes = new byte[23 * 4096];
        for (int i = 0; i < 23; i += 2) {
            Arrays.fill(bytes, i * 4096, (i + 1) * 4096, (byte) (i + 1));
        }
        return bytes;
    }

    private static void sources() throws IOException {
        Files.writeString(folder.resolve("hello.txt"), "hello, world\n");
        byte[] block = new byte[4096];
        for (int i = 0; i < block.length; i++) {
            block[i] = (byte) i;
        }
        Files.write(folder.resolve("one-block.bin"), block);
        Files.write(folder.resolve("big.bin"), bigFile());
        try (var channel = java.nio.channels.FileChannel.open(folder.resolve("sparse.bin"), java.nio.file.StandardOpenOption.CREATE,
                java.nio.file.StandardOpenOption.WRITE)) {
            for (int i = 0; i < 23; i += 2) {
                channel.write(java.nio.ByteBuffer.wrap(sparseFile(), i * 4096, 4096), i * 4096L);
            }
        }
        Files.createFile(folder.resolve("empty"));
        StringBuilder many = new StringBuilder("mkdir many\ncd many\n");
        for (int i = 0; i < 400; i++) {
            many.append(String.format("write %s/empty file-with-a-longish-name-%04d.dat%n", folder, i));
        }
        Files.writeString(folder.resolve("many.txt"), many);
        Files.writeString(folder.resolve("files.txt"), """
                mkdir docs
                mkdir docs/sub
                write @/hello.txt hello.txt
                write @/one-block.bin docs/one-block.bin
                write @/big.bin docs/sub/big.bin
                write @/sparse.bin sparse.bin
                write @/empty empty
                symlink short hello.txt
                symlink long a-very-long-symlink-target-path-that-does-not-fit-into-sixty-bytes/of/i_block/hello.txt
                mknod fifo p
                write @/hello.txt gone.txt
                rm gone.txt
                """.replace("@", folder.toString()));
        for (String name : List.of("hello.txt", "one-block.bin", "big.bin", "sparse.bin", "empty")) {
            Files.setPosixFilePermissions(folder.resolve(name), java.nio.file.attribute.PosixFilePermissions.fromString("rw-r--r--"));
        }
    }

    private static void make(String name, Path file) throws IOException {
        if (name.equals("e4h")) {
            Files.write(file, image("e4"));
            Tool.run(TIME, null, 20, "e2fsck", "-fyD", file.toString());
            return;
        }
        String old = "^orphan_file,^metadata_csum_seed,^resize_inode";
        List<String> command = new ArrayList<>(List.of("mke2fs", "-q", "-F", "-U", UUID, "-L", "TESTVOL", "-E",
                "hash_seed=aaaaaaaa-bbbb-4ccc-8ddd-eeeeeeeeeeee,lazy_itable_init=0,lazy_journal_init=0,nodiscard"));
        command.addAll(switch (name) {
            case "e4" -> List.of("-t", "ext4", "-b", "4096", "-g", "2048", "-I", "256", "-N", "1024", "-J", "size=4", "-O",
                    "64bit,metadata_csum,flex_bg,extents,dir_index,sparse_super," + old, "-G", "4", file.toString(), "32M");
            case "e4u" -> List.of("-t", "ext4", "-b", "4096", "-g", "2048", "-I", "256", "-N", "1024", "-J", "size=4", "-O",
                    "^64bit,^metadata_csum,uninit_bg,flex_bg," + old, file.toString(), "32M");
            case "e3" -> List.of("-t", "ext3", "-b", "1024", "-I", "128", "-N", "1024", "-J", "size=1", "-O", "^resize_inode",
                    file.toString(), "24M");
            case "e2" -> List.of("-t", "ext2", "-b", "1024", "-I", "128", "-N", "512", file.toString(), "4M");
            case "e4seed" -> List.of("-t", "ext4", "-b", "1024", "-I", "256", "-N", "1024", "-J", "size=1", "-O",
                    "64bit,metadata_csum,metadata_csum_seed,inline_data,sparse_super2,^sparse_super,^resize_inode,orphan_file",
                    file.toString(), "32M");
            case "e4meta" -> List.of("-t", "ext4", "-b", "1024", "-I", "256", "-N", "1024", "-J", "size=1", "-O",
                    "64bit,metadata_csum,bigalloc,meta_bg," + old, file.toString(), "32M");
            case "e4grow" -> List.of("-t", "ext4", "-b", "1024", "-I", "256", "-N", "1024", "-J", "size=1", "-O",
                    "64bit,metadata_csum,resize_inode,^orphan_file", file.toString(), "32M");
            default -> throw new IllegalArgumentException(name);
        });
        Tool.run(TIME, null, 20, command.toArray(String[]::new)).ok();
        for (String script : List.of("files.txt", "many.txt")) {
            Tool.run(TIME, null, 30, "debugfs", "-w", "-f", folder.resolve(script).toString(), file.toString()).ok();
        }
    }
}
