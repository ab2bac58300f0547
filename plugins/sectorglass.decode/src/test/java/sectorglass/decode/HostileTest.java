package sectorglass.decode;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static sectorglass.decode.Specs.at;
import static sectorglass.decode.Specs.decode;
import static sectorglass.decode.Specs.problems;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Map;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.image.Progress;
import sectorglass.image.Window;

/** Specs and bytes that want to hang, to fill the memory or to exhaust the stack. */
@Timeout(20)
class HostileTest {
    private static final Duration SOON = Duration.ofSeconds(15);

    private static FieldNode soon(String spec, byte[] bytes) {
        return assertTimeoutPreemptively(SOON, () -> decode(spec, bytes));
    }

    @Test
    void elementsWithoutBytesEnd() {
        String spec = """
                meta: {id: t}
                seq: [{id: all, type: nothing, repeat: %s}]
                types: {nothing: {}}
                """;
        FieldNode until = soon(spec.formatted("until, repeat-until: 'false'"), new byte[1]);
        assertNotNull(at(until, "all").problem());
        FieldNode eos = soon(spec.formatted("eos"), new byte[1]);
        assertNotNull(at(eos, "all").problem());
        FieldNode counted = soon(spec.formatted("expr, repeat-expr: 4000000000"), new byte[1]);
        assertTrue(at(counted, "all").children().size() <= DecodeOptions.DEFAULT.maxNodes());
        assertNotNull(at(counted, "all").problem());
    }

    @Test
    void elementsLeftOutByACaseEnd() {
        FieldNode root = soon("""
                meta: {id: t}
                seq:
                  - id: all
                    type: {switch-on: 2, cases: {1: u1}}
                    repeat: expr
                    repeat-expr: 9000000000000000000
                """, new byte[8]);
        assertNotNull(at(root, "all").problem());
    }

    @Test
    void hugeCountsAndSizesAllocateNothing() {
        FieldNode root = soon("""
                meta: {id: t, endian: le}
                seq:
                  - {id: n, type: u8}
                  - {id: items, type: u1, repeat: expr, repeat-expr: n}
                  - {id: body, size: n}
                instances:
                  wrapped: {value: n * n}
                """, new byte[] {-1, -1, -1, -1, -1, -1, -1, 127, 1, 2});
        assertEquals(FieldNode.State.CLIPPED, at(root, "items").state());
        assertEquals(2, at(root, "items").children().get(0).length() + at(root, "items").children().get(1).length());
    }

    @Test
    void recursionEndsAtTheLimit() {
        FieldNode root = soon("{meta: {id: t}, seq: [{id: next, type: t}]}", new byte[8]);
        int depth = 0;
        FieldNode node = root;
        while (!node.children().isEmpty()) {
            node = node.children().get(0);
            depth++;
        }
        assertTrue(depth <= DecodeOptions.DEFAULT.maxDepth() + 1, "depth " + depth);
        assertNotNull(node.problem());
    }

    @Test
    void instancesThatNestEnd() {
        FieldNode root = soon("""
                meta: {id: t}
                instances:
                  a: {pos: 0, type: t}
                  b: {pos: 0, type: t}
                """, new byte[8]);
        assertNotNull(root.problem());
    }

    @Test
    void longChainsOfInstancesEnd() {
        StringBuilder spec = new StringBuilder("meta: {id: t}\ninstances:\n  v0: {value: 1}\n");
        for (int i = 1; i < 3000; i++) {
            spec.append("  v").append(i).append(": {value: v").append(i - 1).append(" + 1}\n");
        }
        StringBuilder reversed = new StringBuilder("meta: {id: t}\ninstances:\n");
        for (int i = 3000; i > 0; i--) {
            reversed.append("  v").append(i).append(": {value: v").append(i - 1).append(" + 1}\n");
        }
        reversed.append("  v0: {value: 1}\n");
        assertEquals(3000L, at(soon(spec.toString(), new byte[0]), "v2999").raw());
        assertFalse(soon(reversed.toString(), new byte[0]).children().isEmpty());
    }

    @Test
    void textsThatDoubleEnd() {
        StringBuilder spec = new StringBuilder("meta: {id: t}\ninstances:\n  v0: {value: '\"0123456789\"'}\n");
        for (int i = 1; i < 60; i++) {
            spec.append("  v").append(i).append(": {value: v").append(i - 1).append(" + v").append(i - 1).append("}\n");
        }
        FieldNode root = soon(spec.toString(), new byte[0]);
        assertNotNull(at(root, "v59").problem());
    }

    @Test
    void compressedBytesThatGrowEnd() throws IOException {
        java.io.ByteArrayOutputStream packed = new java.io.ByteArrayOutputStream();
        try (java.util.zip.DeflaterOutputStream out = new java.util.zip.DeflaterOutputStream(packed)) {
            byte[] zeros = new byte[1 << 20];
            for (int i = 0; i < 200; i++) {
                out.write(zeros);
            }
        }
        FieldNode root = soon("{meta: {id: t}, seq: [{id: a, size-eos: true, process: zlib}]}", packed.toByteArray());
        assertNotNull(at(root, "a").problem());
    }

    @Test
    void deepExpressionsAndYamlAreRefused() {
        String brackets = "(".repeat(20_000) + "1" + ")".repeat(20_000);
        assertEquals(1, problems("{meta: {id: t}, instances: {a: {value: '" + brackets + "'}}}").size());
        String sum = "1" + " + 1".repeat(20_000);
        assertEquals(1, problems("{meta: {id: t}, instances: {a: {value: '" + sum + "'}}}").size());
        assertFalse(problems("a: " + "[".repeat(50_000)).isEmpty());
        assertFalse(problems("x: " + "y".repeat(3 << 20)).isEmpty());
        String format = "f\"{".repeat(3000) + "1" + "}\"".repeat(3000);
        assertEquals(1, problems("meta: {id: t}\ninstances:\n  a:\n    value: |\n      " + format + "\n").size());
    }

    @Test
    void aliasesThatLaughAreRefused() {
        StringBuilder yaml = new StringBuilder("meta: {id: t}\n-a0: &a0 [x, x, x, x, x, x, x, x, x]\n");
        for (int i = 1; i < 12; i++) {
            yaml.append("-a").append(i).append(": &a").append(i).append(" [").append(("*a" + (i - 1) + ", ").repeat(9)).append("x]\n");
        }
        assertTrue(problems(yaml.toString()).get(0).contains("alias"));
    }

    @Test
    void importsThatGoInCirclesOrGrowEnd(@TempDir Path folder) throws IOException {
        for (int i = 0; i < 300; i++) {
            Files.writeString(folder.resolve("f" + i + ".ksy"), "{meta: {id: f" + i + ", imports: [f" + (i * 2 % 300) + ", f" + ((i * 2 + 1) % 300)
                    + "]}, seq: []}");
        }
        assertTrue(SpecCheck.check(folder.resolve("f1.ksy")).stream().anyMatch(p -> p.sentence().contains("more than 100 specs")));
        Files.writeString(folder.resolve("a.ksy"), "{meta: {id: a, imports: [b]}, seq: [{id: x, type: b}]}");
        Files.writeString(folder.resolve("b.ksy"), "{meta: {id: b, imports: [a]}, seq: [{id: y, type: u1}]}");
        assertEquals(java.util.List.of(), SpecCheck.check(folder.resolve("a.ksy")));
    }

    @Test
    void aPersonCanStopIt() {
        Progress stop = new Progress() {
            @Override
            public boolean cancelled() {
                return true;
            }

            @Override
            public void at(String what, long done, long total) {
                // nobody watches
            }
        };
        Format format = Specs.load("{meta: {id: t}, seq: [{id: a, type: u1, repeat: eos}]}");
        DecodeOptions options = new DecodeOptions(Map.of(), 10_000_000, 64, stop);
        FieldNode root = Decoder.decode(format, Window.ofRead(new byte[1 << 20], 0, 512), options);
        assertNotNull(root.problem());
        assertTrue(root.children().get(0).children().size() < 10_000);
    }

    @Test
    void aWindowThatIsTooLargeIsDecodedInPart() {
        FieldNode root = soon("{meta: {id: t}, seq: [{id: a, size-eos: true}]}", new byte[Decoder.MAX_WINDOW + 100]);
        assertEquals(Decoder.MAX_WINDOW, at(root, "a").length());
    }
}
