package sectorglass.disk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;

import org.junit.jupiter.api.Test;

class CompactTreeTest {
    private static final CompactTree.Details NO_DETAILS = (tree, entry, key) -> null;

    private static int folder(CompactTreeBuilder builder, String name, int parent) {
        int id = builder.add(name, true, false, 0, (FileStamp) null, 7, 7);
        builder.parent(id, parent);
        return id;
    }

    @Test
    void namesPathsTimesAndKeysComeBack() {
        CompactTreeBuilder builder = new CompactTreeBuilder();
        int file = builder.add("Größe ☃.txt", false, false, 1234, FileStamp.of(Instant.parse("2024-01-02T03:04:05Z")), 70, 9000);
        int local = builder.add("x".repeat(300), false, true, -1, FileStamp.local(LocalDateTime.of(1999, 1, 2, 3, 4)), 71, 71);
        int root = folder(builder, "", -1);
        builder.root(root);
        int docs = folder(builder, "docs", root);
        builder.parent(file, docs);
        builder.parent(local, docs);
        CompactTree tree = builder.build(NO_DETAILS);
        assertEquals("Größe ☃.txt", tree.name(file));
        assertEquals("docs/Größe ☃.txt", tree.path(file));
        assertEquals(1234, tree.bytes(file));
        assertEquals("2024-01-02T03:04:05Z", tree.modified(file).toString());
        assertEquals(9000, tree.key(file));
        assertEquals(71, tree.key(local));
        assertEquals("1999-01-02T03:04", tree.modified(local).toString());
        assertNull(tree.modified(docs));
        assertTrue(tree.deleted(local));
        assertFalse(tree.deleted(file));
        assertEquals("x".repeat(300), tree.name(local));
        assertEquals(List.of(file), tree.withNumber(70));
        assertEquals(List.of(), tree.withNumber(69));
        assertEquals(2, tree.childCount(docs));
        assertEquals(-1, tree.withoutFolder());
        assertEquals(OptionalInt.of(file), tree.find("/docs/Größe ☃.txt"));
        assertEquals(OptionalInt.of(docs), tree.find("DOCS"));
        assertEquals(OptionalInt.empty(), tree.find("docs/none"));
    }

    @Test
    void circlesAndLooseEntriesGoUnderWithoutAFolder() {
        CompactTreeBuilder builder = new CompactTreeBuilder();
        int root = folder(builder, "", -1);
        builder.root(root);
        int a = folder(builder, "a", -1);
        int b = folder(builder, "b", a);
        int c = folder(builder, "c", b);
        builder.parent(a, c);
        int self = folder(builder, "self", -1);
        builder.parent(self, self);
        int loose = folder(builder, "loose", -1);
        int below = folder(builder, "below", loose);
        CompactTree tree = builder.build(NO_DETAILS);
        List<String> paths = new ArrayList<>();
        tree.walk(tree.root(), (entry, depth) -> paths.add(tree.path(entry)));
        assertEquals(tree.size(), paths.size(), paths.toString());
        assertEquals("Without a folder/a/b/c", tree.path(c));
        assertEquals("Without a folder/self", tree.path(self));
        assertEquals("Without a folder/loose/below", tree.path(below));
        assertEquals(root, tree.parent(tree.withoutFolder()));
    }

    @Test
    void partsOfPathsCannotEscapeOrComeAlive() {
        assertEquals("a\\u{2F}b", FileTree.part("a/b"));
        assertEquals("\\u{2E}\\u{2E}", FileTree.part(".."));
        assertEquals("\\u{1B}[31m", FileTree.part("\u001b[31m"));
        assertEquals("...", FileTree.part("..."));
    }

    @Test
    void deepTreesAreWalkedWithoutDeepCalls() {
        CompactTreeBuilder builder = new CompactTreeBuilder();
        int at = folder(builder, "", -1);
        builder.root(at);
        for (int i = 0; i < 100_000; i++) {
            at = folder(builder, "d", at);
        }
        CompactTree tree = builder.build(NO_DETAILS);
        int[] deepest = {0};
        tree.walk(tree.root(), (entry, depth) -> (deepest[0] = Math.max(deepest[0], depth)) >= 0);
        assertEquals(100_000, deepest[0]);
    }
}
