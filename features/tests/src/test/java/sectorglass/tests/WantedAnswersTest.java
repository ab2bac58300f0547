package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.make.Demo;

/** Answers to a wanted list, in both languages. */
class WantedAnswersTest {
    @TempDir
    Path folder;

    @Test
    void answersAreInTheLanguageThatIsAskedFor() throws IOException {
        Demo.Written demo = Demo.write(folder, Demo.Variant.PARTLY_READ);
        Path list = Files.writeString(folder.resolve("wanted.csv"), "name,folder,kind,from,to,note\n,,sound,,,\nwedding,,,,,Hochzeit\n");
        Cli english = Cli.run("files", demo.image(), "--read-map", demo.readMap(), "--wanted", list, "--language", "en");
        assertEquals(0, english.status(), english.err());
        assertTrue(english.out().contains("Line 2: kind sound\n  found and damaged: 2 files, "), english.out());
        assertTrue(english.out().contains("Line 3: name wedding (Hochzeit)\n  not seen\n") && english.out().contains("may exist all the same"), english.out());
        Cli german = Cli.run("files", demo.image(), "--read-map", demo.readMap(), "--wanted", list, "--language", "de");
        assertTrue(german.out().contains("Zeile 2: Art Ton\n  gefunden und besch\u00E4digt: 2 Dateien, "), german.out());
        assertTrue(german.out().contains("Zeile 3: Name wedding (Hochzeit)\n  nicht gesehen\n") && german.out().contains("dennoch vorhanden"), german.out());
        for (String word : new String[] {"Line ", "found", "complete", "damaged", "metadata"}) {
            assertTrue(!german.out().contains(word), word + " in " + german.out());
        }
    }
}
