package sectorglass.apple;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;

import sectorglass.testkit.Tool;
import sectorglass.testvolumes.ApfsMaker;

/** APFS containers that the tests need: mkapfs makes them, files are put in afterwards, apfsck judges the result. */
final class ApfsMade {
    private ApfsMade() {
    }

    /** An empty container of 256 MiB with the volume TESTVOL. */
    static Path empty(Path folder, String name, String... options) throws IOException {
        Path file = folder.resolve(name);
        try (RandomAccessFile raw = new RandomAccessFile(file.toFile(), "rw")) {
            raw.setLength(256L << 20);
        }
        String[] command = new String[options.length + 8];
        String[] fixed = {"mkapfs", "-U", "11111111-2222-4333-8444-555555555555", "-u", "66666666-7777-4888-8999-aaaaaaaaaaaa", "-L", "TESTVOL"};
        System.arraycopy(fixed, 0, command, 0, 7);
        System.arraycopy(options, 0, command, 7, options.length);
        command[command.length - 1] = file.toString();
        Tool.run(command).ok();
        return file;
    }

    /** A container with folders, pieces, holes, links, attributes and compressed files, and further small files. */
    static Path rich(Path folder, String name, int more) throws IOException {
        Path file = folder.resolve(name);
        if (Files.exists(file)) {
            return file;
        }
        empty(folder, name);
        try (ApfsMaker maker = new ApfsMaker(file)) {
            long docs = maker.folder(ApfsMaker.ROOT, "docs");
            maker.file(ApfsMaker.ROOT, "hello.txt", HfsVolumesMade.text("hello, world\n"));
            maker.file(docs, "Übung: drei", HfsVolumesMade.text("composed"));
            maker.file(docs, "empty", new byte[0]);
            maker.file(docs, "sparse", HfsVolumesMade.noise(5000, 4), 3, 0);
            maker.symbolicLink(docs, "symbolic", "/docs/empty");
            maker.linked(docs, "first", ApfsMaker.ROOT, "second", HfsVolumesMade.text("linked content"));
            maker.gap(1).file(docs, "pieces.bin", HfsVolumesMade.noise(200000, 1));
            maker.gap(0);
            long inline = maker.file(docs, "inline.z", new byte[0], 0, 0x20);
            maker.attribute(inline, Decmpfs.NAME, unsigned(HfsVolumesMade.attribute(3, HfsVolumesMade.text("inline ".repeat(40)),
                    HfsVolumesMade.deflate(HfsVolumesMade.text("inline ".repeat(40))))), 0);
            if (!name.startsWith("judged")) {
                compressed(maker, docs);
            }
            for (int i = 0; i < more; i++) {
                maker.file(docs, "file number " + i, HfsVolumesMade.text("content " + i));
            }
        }
        return file;
    }

    /** A file whose content is compressed in its resource fork. */
    static void compressed(ApfsMaker maker, long parent) {
        byte[] large = HfsVolumesMade.text("compressed in a fork, ".repeat(7000));
        long fork = maker.file(parent, "fork.z", new byte[0], 0, 0x20);
        maker.attribute(fork, Decmpfs.NAME, unsigned(HfsVolumesMade.attribute(4, large, new byte[0])), 0);
        maker.attributeStream(fork, Decmpfs.RESOURCE, HfsVolumesMade.resource(large));
    }

    /** The header as apfsck wants it: without its signature. */
    private static byte[] unsigned(byte[] attribute) {
        java.util.Arrays.fill(attribute, 0, 4, (byte) 0);
        return attribute;
    }
}
