package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicLong;

import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;

import sectorglass.disk.Disk;
import sectorglass.disk.FirstLooks;
import sectorglass.disk.Level;
import sectorglass.disk.Survey;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;
import sectorglass.make.DiskDescription;
import sectorglass.make.DiskMaker;
import sectorglass.make.PartitionDescription;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;

/** A disk of 20 TB: every address is a long, and little is read. A single sparse file of that size needs a memory file system here. */
class HugeImageTest {
    private static final long SECTORS = 39_063_650_304L;

    /** Counts the bytes read. */
    private record Counting(SectorImage base, AtomicLong read) implements SectorImage {
        @Override
        public String name() {
            return base.name();
        }

        @Override
        public int sectorSize() {
            return base.sectorSize();
        }

        @Override
        public long bytes() {
            return base.bytes();
        }

        @Override
        public SectorStates read(long firstByte, byte[] into, int offset, int length) {
            read.addAndGet(length);
            return base.read(firstByte, into, offset, length);
        }

        @Override
        public ReadState state(long lba) {
            return base.state(lba);
        }

        @Override
        public SectorRanges inState(ReadState state, SectorRange within) {
            return base.inState(state, within);
        }
    }

    @Test
    void twentyTerabytesAreLaidOutWithEightMebibytesRead() throws Exception {
        Path memory = Path.of("/dev/shm");
        Assumptions.assumeTrue(Files.isWritable(memory), "no memory file system");
        Path file = Files.createTempFile(memory, "huge", ".img");
        try {
            Files.delete(file);
            long last = SECTORS - 34;
            DiskMaker.withoutPlaces().make(DiskDescription.gpt(SECTORS, 512, 20, new UUID(20, 20),
                    PartitionDescription.primary(2048, 1L << 32, 7), PartitionDescription.primary(1L << 33, last - (1L << 33), 7)), file);
            try (OpenImage image = Images.open(file, OpenOptions.DEFAULT)) {
                AtomicLong read = new AtomicLong();
                SectorImage counting = new Counting(image, read);
                Disk disk = Survey.of(counting, Progress.NONE);
                FirstLooks.of(disk, Locale.ENGLISH);
                assertTrue(read.get() <= 8 << 20, read + " bytes read");
                assertEquals(20_000, FirstLooks.of(disk, Locale.ENGLISH).nominal().gigabytes());
                assertEquals(2, disk.partitions().size());
                assertEquals(1L << 33, disk.partitions().get(1).range().first());
                assertEquals(last - 1, disk.partitions().get(1).range().last());
                Findings findings = Survey.ofProviders().verify(disk, Level.FULL, RuleBook.ofProviders(Locale.ENGLISH), Progress.NONE);
                assertEquals(0, findings.counts().unusable() + findings.counts().atRisk() + findings.counts().notChecked(), findings.listed().toString());
                assertEquals(SECTORS - 1, disk.maps().get(disk.maps().size() - 1).map().lba());
            }
            Cli far = Cli.run("explain", file, "--lba", SECTORS - 1, "--json");
            assertEquals("gpt_header", far.json().get("format").asText(), far.err());
        } finally {
            Files.deleteIfExists(file);
        }
    }
}
