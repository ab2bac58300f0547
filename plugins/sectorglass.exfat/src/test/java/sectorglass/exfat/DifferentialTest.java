package sectorglass.exfat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.disk.Level;
import sectorglass.disk.VolumeInfo;
import sectorglass.testkit.Tool;
import sectorglass.testvolumes.DiskFile;

/** Other programs see the same: exfatprogs 1.2.0, blkid. */
class DifferentialTest {

    @TempDir
    Path folder;

    private String file(byte[] image) throws Exception {
        Path file = folder.resolve("e.img");
        Files.write(file, image);
        return file.toString();
    }

    @Test
    void dumpGivesTheSameNumbers() throws Exception {
        String text = Tool.run("dump.exfat", file(Volumes.filled())).ok();
        Geometry geometry = Volumes.volume(Volumes.open()).found().geometry();
        assertTrue(text.matches("(?s).*FAT Offset\\(sector offset\\):\\s+" + geometry.fatOffset() + "\\s.*"), text);
        assertTrue(text.matches("(?s).*Cluster Heap Offset \\(sector offset\\):\\s+" + geometry.heapOffset() + "\\s.*"), text);
        assertTrue(text.matches("(?s).*Cluster Count:\\s+" + geometry.clusters() + "\\s.*"), text);
        assertTrue(text.matches("(?s).*Root Cluster \\(cluster offset\\):\\s+" + geometry.rootCluster() + "\\s.*"), text);
        VolumeInfo info = Volumes.volume(Volumes.open()).info();
        long free = geometry.clusters() - info.usedBytes() / geometry.clusterBytes();
        assertTrue(text.matches("(?s).*Free Clusters:\\s+" + free + "\\s.*"), text);
    }

    @Test
    void fsckCallsTheSameVolumeClean() throws Exception {
        Tool.Result result = Tool.run("fsck.exfat", "-n", file(Volumes.filled()));
        assertEquals(0, result.status(), result.out());
        assertTrue(result.out().contains("directories 2, files 5"), result.out());
        assertEquals("", Volumes.listed(Volumes.check(Volumes.open(), Level.FULL)));
    }

    @Test
    void blkidGivesTheSameNames() throws Exception {
        String text = Tool.run("blkid", "-p", file(Volumes.filled())).ok();
        VolumeInfo info = Volumes.volume(Volumes.open()).info();
        assertTrue(text.contains("LABEL=\"" + info.label() + "\"") && text.contains("UUID=\"" + info.serial() + "\"")
                && text.contains("TYPE=\"exfat\""), text);
    }

    /** Other cluster sizes and places of the heap than the small volume has. */
    @ParameterizedTest
    @CsvSource({"8M,512,32K", "64M,4K,1M", "300M,32K,1M", "2G,128K,4M"})
    void volumesOfTheFormatterPass(String size, String cluster, String boundary) throws Exception {
        Path file = folder.resolve("v.img");
        Tool.run("truncate", "-s", size, file.toString()).ok();
        Tool.run("mkfs.exfat", "-L", "Größe", "-c", cluster, "-b", boundary, file.toString()).ok();
        DiskFile image = DiskFile.open(file, 512);
        assertEquals("", Volumes.listed(Volumes.check(image, Level.FULL)));
        assertEquals("Größe", Volumes.volume(image).info().label());
        String label = Tool.run("exfatlabel", file.toString()).out();
        assertTrue(label.contains("Größe"), label);
        assertEquals(0, Tool.run("fsck.exfat", "-n", file.toString()).status());
    }
}
