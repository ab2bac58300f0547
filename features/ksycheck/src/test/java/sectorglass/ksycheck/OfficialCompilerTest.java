package sectorglass.ksycheck;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FieldNode;
import sectorglass.decode.Format;
import sectorglass.decode.SpecCheck;
import sectorglass.decode.internal.run.StructNode;
import sectorglass.image.Window;

/** Every shipped spec: compiled by the official compiler, and compared on made, damaged, random and empty bytes. */
class OfficialCompilerTest {
    private static final int MUTATIONS = 200;
    private static final int LENGTH = 4096;
    private static final long SEED = 20260101L;

    @TempDir
    static Path work;
    private static List<Path> specs;
    private static GeneratedCode.Outcome outcome;
    private static Samples samples;

    @BeforeAll
    static void compile() throws IOException, InterruptedException {
        try (Stream<Path> all = Files.walk(Path.of(System.getProperty("house")).resolve("formats"))) {
            specs = all.filter(p -> p.toString().endsWith(".ksy")).sorted().toList();
        }
        outcome = GeneratedCode.compile(specs, work);
        samples = Samples.make(Files.createDirectories(work.resolve("samples")));
    }

    @Test
    void everySpecIsAcceptedByTheOfficialCompiler() {
        assertFalse(specs.isEmpty());
        assertEquals("", outcome.complaints());
    }

    @TestFactory
    List<DynamicTest> everySpecGivesTheSameFields() {
        return specs.stream().map(spec -> DynamicTest.dynamicTest(spec.getFileName().toString(), () -> compare(spec))).toList();
    }

    private static void compare(Path spec) throws Exception {
        Format format = SpecCheck.load(spec);
        Class<?> type = outcome.code().type(format.id());
        Map<String, Object> params = format.params().stream().collect(Collectors.toMap(id -> id, OfficialCompilerTest::param));
        DecodeOptions options = DecodeOptions.DEFAULT.withParams(params);
        List<Object> arguments = format.params().stream().map(id -> (Object) params.get(id)).toList();
        Random random = new Random(SEED ^ format.id().hashCode());

        List<byte[]> bases = new ArrayList<>(samples.of(format.id()));
        bases.add(new byte[LENGTH / 2]);
        byte[] noise = new byte[LENGTH / 2];
        random.nextBytes(noise);
        bases.add(noise);
        bases.add(Repair.of(format, new byte[LENGTH], options));
        bases.add(Repair.of(format, noise, options));
        int compared = 0;
        for (byte[] base : bases) {
            compared += compare(format, type, base, options, arguments, "base");
        }
        for (int i = 0; i < MUTATIONS; i++) {
            byte[] mutated = mutate(bases.get(i % bases.size()), random);
            compared += compare(format, type, mutated, options, arguments, "mutation " + i);
        }
        assertTrue(compared > 0, "nothing was compared");
    }

    /** Plausible values of parameters; the names are those of the shipped specs. */
    private static Object param(String id) {
        return switch (id) {
            case "sector_size" -> 512L;
            case "desc_size" -> 64L;
            case "inode_size" -> 256L;
            case "entry_size" -> 128L;
            case "entry_count", "count" -> 3L;
            case "first_entry", "first_cluster" -> 2L;
            case "folder", "little" -> Boolean.TRUE;
            default -> 1L;
        };
    }

    private static byte[] mutate(byte[] base, Random random) {
        byte[] bytes = random.nextInt(4) == 0 ? Arrays.copyOf(base, random.nextInt(base.length + 1)) : base.clone();
        int changes = 1 + random.nextInt(8);
        for (int i = 0; i < changes && bytes.length > 0; i++) {
            // the head of a structure decides most
            int reach = random.nextBoolean() ? Math.min(bytes.length, 128) : bytes.length;
            int at = random.nextInt(reach);
            bytes[at] = random.nextInt(3) == 0 ? (byte) (bytes[at] ^ 1 << random.nextInt(8)) : (byte) random.nextInt(256);
        }
        return bytes;
    }

    private static int compare(Format format, Class<?> type, byte[] bytes, DecodeOptions options, List<Object> arguments, String what)
            throws ReflectiveOperationException {
        StructNode root = (StructNode) Decoder.decode(format, Window.ofRead(bytes, 0, 512), options);
        GeneratedObject object = GeneratedObject.over(type, bytes, arguments);
        Throwable stopped = object.read();
        Comparison comparison = new Comparison();
        comparison.struct(root, object, 0, stopped == null);
        assertEquals(List.of(), comparison.differences(), () -> format.id() + ", " + what + " of seed " + SEED + ", generated code "
                + (stopped == null ? "read all" : "stopped: " + stopped) + ", bytes " + head(bytes));
        boolean marked = marked(root);
        if (stopped != null && !(stopped instanceof NullPointerException)) { // it loses unassigned members of enumerations
            assertTrue(marked, () -> format.id() + ", " + what + ": the generated code stopped (" + stopped + "), but nothing is marked");
        }
        return comparison.compared();
    }

    private static boolean marked(FieldNode node) {
        return node.state() != FieldNode.State.OK || node.children().stream().anyMatch(OfficialCompilerTest::marked);
    }

    private static String head(byte[] bytes) {
        return bytes.length + ": " + java.util.HexFormat.of().formatHex(bytes, 0, Math.min(bytes.length, 96));
    }
}
