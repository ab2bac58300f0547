package sectorglass.ext;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import com.code_intelligence.jazzer.api.FuzzedDataProvider;
import com.code_intelligence.jazzer.junit.FuzzTest;

import sectorglass.fuzz.ChangedImage;
import sectorglass.image.Window;
import sectorglass.testkit.Tool;
import sectorglass.testvolumes.VolumeExercise;
import sectorglass.verify.RuleBook;

/** Whatever the bytes say: the readers end, stay in bounds, and what they give agrees with itself. */
class ExtFuzzTest {
    private static final RuleBook BOOK = new RuleBook(List.of(new ExtRules()), Locale.ENGLISH);
    /** Longest that one volume of 4 MiB may take, on a machine busy with other work. */
    private static final long MOST_NANOS = 20_000_000_000L;
    private static final String[] SHAPES = {"-t ext4 -b 1024 -O inline_data,metadata_csum,^has_journal -I 256", "-t ext2 -b 1024 -I 128",
        "-t ext4 -b 1024 -O 64bit,^metadata_csum,^resize_inode -J size=1", "-t ext3 -b 4096 -O ^resize_inode"};
    private static final ChangedImage[] MADE = new ChangedImage[SHAPES.length];

    private static void hold(boolean statement, String what) {
        if (!statement) {
            throw new IllegalStateException(what);
        }
    }

    /** Small volumes with folders, a file in many pieces, links, attributes, a journal with transactions that wait. */
    private static synchronized ChangedImage volume(int shape) {
        if (MADE[shape] == null) {
            try {
                MADE[shape] = make(SHAPES[shape]);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
        return MADE[shape];
    }

    private static ChangedImage make(String options) throws IOException {
        Path source = Files.createTempDirectory("source");
        Path folder = Files.createDirectories(source.resolve("folder/inner"));
        for (int i = 0; i < 12; i++) {
            Files.write(folder.resolve("a name of some length " + i), new byte[i * 300]);
        }
        try (var sparse = new java.io.RandomAccessFile(source.resolve("sparse").toFile(), "rw")) {
            for (int i = 0; i < 40; i++) {
                sparse.seek(i * 12_000L);
                sparse.write(i + 1);
            }
        }
        Files.createSymbolicLink(source.resolve("link"), Path.of("folder/" + "far-".repeat(20)));
        Path image = Files.createTempFile("volume", ".img");
        List<String> command = new ArrayList<>(List.of("mke2fs", "-q", "-F", "-N", "64"));
        command.addAll(List.of(options.split(" ")));
        command.addAll(List.of("-d", source.toString(), image.toString(), "4M"));
        Tool.run(command.toArray(String[]::new)).ok();
        Path script = Files.writeString(Files.createTempFile("fill", ".txt"), "ea_set sparse user.note " + "y".repeat(300) + "\nrm \"folder/inner/a name of some length 5\"\n"
                + (options.contains("size=1") || options.contains("ext3") ? "jo -c\njw -b 500,501 " + source.resolve("sparse") + "\njw -r 502\njc\n" : ""));
        Tool.run("debugfs", "-w", "-f", script.toString(), image.toString()).ok();
        byte[] bytes = Files.readAllBytes(image);
        List<int[]> places = new ArrayList<>();
        int block = options.contains("4096") ? 4096 : 1024;
        places.add(new int[] {1024, 640});
        places.add(new int[] {Math.max(2048, block), 64});
        Layout layout = ((ExtVolume) new ExtVolumes().open(new ExtVolumes().recognise(new sectorglass.disk.VolumeSite(new ChangedImage(bytes),
                new ChangedImage(bytes).all(), null)).orElseThrow())).layout();
        Group first = new Groups(layout).get(0);
        places.add(new int[] {(int) first.blockBitmap() * block, block});
        places.add(new int[] {(int) first.inodeTable() * block, 40 * layout.sb.inodeSize()});
        places.add(new int[] {(int) first.inodeTable() * block + 10 * layout.sb.inodeSize(), 24 * layout.sb.inodeSize()});
        for (int at = 0; at + block <= bytes.length; at += block) {
            Window w = new ChangedImage(bytes).window(at, block);
            boolean folderBlock = w.u16le(4) == 12 && w.u8(6) == 1 && w.u8(8) == '.';
            if (folderBlock || w.u16le(0) == 0xF30A || w.u32be(0) == Journal.MAGIC || w.u32le(0) == AttributeChecks.MAGIC) {
                places.add(new int[] {at, block});
            }
        }
        return new ChangedImage(bytes, places.toArray(int[][]::new));
    }

    @FuzzTest(maxDuration = "10m")
    void aChangedVolumeIsUsedWhole(FuzzedDataProvider data) {
        ChangedImage image = volume(data.consumeInt(0, SHAPES.length - 1)).changed(data);
        long begun = System.nanoTime();
        VolumeExercise.run(new ExtVolumes(), BOOK, image);
        hold(System.nanoTime() - begun < MOST_NANOS, "a small volume took longer than 20 seconds");
    }

    @FuzzTest(maxDuration = "4m")
    void directoryBlocksEnd(FuzzedDataProvider data) {
        ChangedImage image = volume(1);
        Layout layout = ((ExtVolume) new ExtVolumes().open(new ExtVolumes().recognise(new sectorglass.disk.VolumeSite(image, image.all(), null))
                .orElseThrow())).layout();
        byte[] block = java.util.Arrays.copyOf(data.consumeRemainingAsBytes(), 1024);
        int[] at = {0};
        DirectoryBlock.walk(layout.sb, Window.ofRead(block, 0, 512), (offset, length, inode, name, type) -> {
            hold(offset == at[0] && length >= 8 && offset + length <= 1024 && 8 + name <= length, "entry outside the block");
            at[0] += length;
        });
    }
}
