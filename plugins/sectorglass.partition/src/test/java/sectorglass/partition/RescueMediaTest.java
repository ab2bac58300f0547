package sectorglass.partition;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FormatCatalogue;
import sectorglass.disk.Disk;
import sectorglass.disk.Structure;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;

/** Boot media of the Debian package grub-rescue-pc: opened and explained without an error. */
class RescueMediaTest {

    @Test
    void openedAndExplained() throws Exception {
        Path folder = Path.of("/usr/lib/grub-rescue");
        Assumptions.assumeTrue(Files.isDirectory(folder), "grub-rescue-pc is not installed");
        List<Path> media;
        try (Stream<Path> all = Files.list(folder)) {
            media = all.filter(Files::isRegularFile).sorted().toList();
        }
        assertFalse(media.isEmpty());
        FormatCatalogue catalogue = FormatCatalogue.ofProviders();
        for (Path medium : media) {
            try (OpenImage image = Images.open(medium)) {
                Look look = Look.at(image);
                for (Disk.FoundMap found : look.disk().maps()) {
                    for (Structure structure : found.map().structures()) {
                        assertTrue(Decoder.decode(catalogue.load(structure.format()), structure.reader().read(image),
                                DecodeOptions.DEFAULT.withParams(structure.params())).children().size() > 3, structure.name());
                    }
                }
                assertTrue(look.findings().all().stream().allMatch(f -> f.what() != null && !f.what().contains("{")), medium.toString());
            }
        }
    }
}
