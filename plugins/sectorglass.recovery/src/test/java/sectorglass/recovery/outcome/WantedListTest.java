package sectorglass.recovery.outcome;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.CompactTree;
import sectorglass.disk.CompactTreeBuilder;
import sectorglass.disk.FileStamp;

class WantedListTest {
    @TempDir
    Path folder;

    private WantedList load(String text) throws IOException {
        return WantedList.load(Files.writeString(folder.resolve("wanted.csv"), text));
    }

    @Test
    void columnsMayStandInAnyOrderAndBeAbsent() throws IOException {
        List<Wish> wishes = load("\uFEFFnote,Kind,name\n# a comment\nmum,picture,*.jpg\n,camera raw,\n,,\"a, b\"\n").wishes();
        assertEquals(3, wishes.size());
        assertEquals(FileKind.PICTURE, wishes.get(0).kind());
        assertEquals("mum", wishes.get(0).note());
        assertEquals(FileKind.CAMERA_RAW, wishes.get(1).kind());
        assertEquals("a, b", wishes.get(2).name());
    }

    @Test
    void mistakesAreToldWithTheirLine() {
        for (String[] bad : new String[][] {{"name,from\nx,1.5.2024\n", "line 2"}, {"name,kind\nx,\nx,holiday\n", "line 3"}, {"name,from,to\nx,2024-05-02,2024-05-01\n", "before"},
            {"first,second\nx,y\n", "title line"}, {"name,note\n,only words\n", "names nothing"}}) {
            IOException e = assertThrows(IOException.class, () -> load(bad[0]));
            assertTrue(e.getMessage().contains(bad[1]), e.getMessage());
        }
    }

    private static CompactTree tree() {
        CompactTreeBuilder builder = new CompactTreeBuilder();
        int root = builder.add("", true, false, 0, (FileStamp) null, 0, 0);
        builder.root(root);
        int wedding = builder.add("Wedding", true, false, 0, (FileStamp) null, 1, 1);
        builder.parent(wedding, root);
        int church = builder.add("church", true, false, 0, (FileStamp) null, 2, 2);
        builder.parent(church, wedding);
        String[] names = {"IMG_1.JPG", "img_2.jpg", "notes.txt"};
        int[] folders = {church, root, church};
        for (int i = 0; i < names.length; i++) {
            builder.parent(builder.add(names[i], false, false, 10, FileStamp.of(Instant.parse("2024-05-0" + (i + 1) + "T23:59:59Z")), 3 + i, 3 + i), folders[i]);
        }
        return builder.build((of, id, key) -> null);
    }

    private static List<String> meant(Wish wish) {
        CompactTree tree = tree();
        Wish.Finder finder = wish.finder(tree);
        List<String> found = new ArrayList<>();
        tree.walk(tree.root(), (entry, depth) -> {
            if (!tree.folder(entry) && finder.means(entry)) {
                found.add(tree.name(entry));
            }
            return true;
        });
        found.sort(null);
        return found;
    }

    @Test
    void whatIsGivenMustAllHold() {
        assertEquals(List.of("IMG_1.JPG", "img_2.jpg"), meant(new Wish(1, "img", "", null, null, null, "")));
        assertEquals(List.of("IMG_1.JPG"), meant(new Wish(1, "*.jpg", "wedding", null, null, null, "")));
        assertEquals(List.of("IMG_1.JPG", "notes.txt"), meant(new Wish(1, "", "/Wedding/", null, null, null, "")));
        assertEquals(List.of("IMG_1.JPG", "notes.txt"), meant(new Wish(1, "", "wedding/CHURCH", null, null, null, "")));
        assertEquals(List.of("IMG_1.JPG", "notes.txt"), meant(new Wish(1, "", "*/chur*", null, null, null, "")));
        assertEquals(List.of("img_2.jpg"), meant(new Wish(1, "", "", FileKind.PICTURE, LocalDate.of(2024, 5, 2), LocalDate.of(2024, 5, 2), "")));
        assertEquals(List.of(), meant(new Wish(1, "", "wed", null, null, null, "")));
    }
}
