package sectorglass.workbench.tests;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

import sectorglass.make.Demo;

/** Demo disks with bytes changed at random where structures stand: maps, and the first and last sectors of partitions. */
final class DamagedDisks {

    private DamagedDisks() {
    }

    static List<Path> make(Random random, int count) throws IOException {
        List<Path> made = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            Path folder = Files.createTempDirectory("damaged");
            folder.toFile().deleteOnExit();
            Path image = Demo.write(folder, i % 2 == 0 ? Demo.Variant.GPT : Demo.Variant.MBR).image();
            image.toFile().deleteOnExit();
            try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "rw")) {
                for (int change = 0; change < 400; change++) {
                    long base = switch (random.nextInt(3)) {
                        case 0 -> 0;
                        case 1 -> random.nextInt((int) (file.length() >> 20)) * (1L << 20);
                        default -> file.length() - (1 << 15);
                    };
                    file.seek(base + random.nextInt(1 << 15));
                    file.write(random.nextInt(4) == 0 ? 0xFF : random.nextInt(256));
                }
                if (random.nextInt(4) == 0) {
                    file.setLength(file.length() - random.nextInt(1 << 20));
                }
            }
            made.add(image);
        }
        return made;
    }
}
