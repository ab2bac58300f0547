package sectorglass.recovery;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;

import org.junit.jupiter.api.Test;

import sectorglass.disk.CompactTree;
import sectorglass.disk.CompactTreeBuilder;
import sectorglass.disk.FileStamp;

class PathPatternTest {

    @Test
    void whatMayNotMatchNeverMatches() {
        Random random = new Random(4);
        String[] names = {"Windows", "Temp", "Cache", "windows", "a.txt", "AppData", "Local", "x/y", "pagefile.sys"};
        CompactTreeBuilder builder = new CompactTreeBuilder();
        builder.root(builder.add("", true, false, 0, (FileStamp) null, 0, 0));
        for (int i = 1; i < 400; i++) {
            builder.parent(builder.add(names[random.nextInt(names.length)], true, false, 0, (FileStamp) null, i, i), random.nextInt(i));
        }
        CompactTree tree = builder.build((of, id, key) -> null);
        int matched = 0;
        for (String text : List.of("/pagefile.sys", "/Windows/Temp/**", "**/Cache/**", "**/AppData/Local/Temp/**", "*.txt", "Windows/*", "**/Temp", "**/a.txt", "Cache", "**/*/Temp/**")) {
            PathPattern pattern = new PathPattern(text);
            for (int i = 1; i < tree.size(); i++) {
                boolean matches = pattern.matches(tree.path(i));
                assertTrue(!matches || pattern.mayMatch(tree, i), text + " matches " + tree.path(i));
                matched += matches ? 1 : 0;
            }
        }
        assertTrue(matched > 100, "matched " + matched);
    }

    @Test
    void signsMeanWhatTheDocumentationSays() {
        assertEquals(true, new PathPattern("*.JPG").matches("a/b/c.jpg"));
        assertEquals(false, new PathPattern("a/*").matches("a/b/c"));
        assertEquals(true, new PathPattern("a/**").matches("a/b/c"));
        assertEquals(true, new PathPattern("**/b/?").matches("a/b/c"));
    }
}
