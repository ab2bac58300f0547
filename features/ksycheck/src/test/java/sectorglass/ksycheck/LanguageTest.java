package sectorglass.ksycheck;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.Format;
import sectorglass.decode.SpecCheck;
import sectorglass.decode.SpecException;
import sectorglass.decode.internal.run.StructNode;
import sectorglass.image.Window;

/** Small specs, one for each feature of the language and its combinations: the interpreter against the official compiler. */
class LanguageTest {
    @TempDir
    Path work;

    private final List<byte[]> inputs = new ArrayList<>();

    /** The specs of a resource, written to a folder; {@code === id} begins one. */
    private Map<String, Path> specs(String resource) throws IOException {
        Map<String, StringBuilder> texts = new LinkedHashMap<>();
        StringBuilder text = null;
        try (InputStream in = LanguageTest.class.getResourceAsStream("/language/" + resource)) {
            for (String line : new String(in.readAllBytes(), StandardCharsets.UTF_8).split("\n")) {
                if (line.startsWith("=== ")) {
                    text = new StringBuilder();
                    texts.put(line.substring(4), text);
                } else if (text != null) {
                    text.append(line).append('\n');
                } else if (line.startsWith("bytes")) {
                    inputs.add(HexFormat.of().parseHex(line.substring(5).strip()));
                }
            }
        }
        Map<String, Path> files = new LinkedHashMap<>();
        for (Map.Entry<String, StringBuilder> one : texts.entrySet()) {
            Path file = work.resolve(one.getKey() + ".ksy");
            Files.writeString(file, one.getValue());
            files.put(one.getKey(), file);
        }
        return files;
    }

    @Test
    void acceptedSpecsGiveTheSameFields() throws Exception {
        Map<String, Path> specs = specs("accepted.txt");
        GeneratedCode.Outcome outcome = GeneratedCode.compile(List.copyOf(specs.values()), work.resolve("made"));
        assertEquals("", outcome.complaints());
        Map<String, List<String>> differences = new TreeMap<>();
        int compared = 0;
        for (Map.Entry<String, Path> one : specs.entrySet()) {
            Format format = SpecCheck.load(one.getValue());
            Class<?> type = outcome.code().type(one.getKey());
            for (byte[] bytes : inputs) {
                StructNode root = (StructNode) Decoder.decode(format, Window.ofRead(bytes, 0, 512), DecodeOptions.DEFAULT);
                GeneratedObject object = GeneratedObject.over(type, bytes, List.of());
                Throwable stopped = object.read();
                LanguageComparison comparison = new LanguageComparison();
                comparison.root(root, object, stopped);
                compared += comparison.compared();
                if (!comparison.differences().isEmpty()) {
                    differences.put(one.getKey() + " over " + HexFormat.of().formatHex(bytes), comparison.differences());
                }
            }
        }
        assertEquals(Map.of(), differences);
        assertTrue(specs.size() > 100 && compared > 5000, specs.size() + " specs, " + compared + " values");
    }

    @Test
    void refusedSpecsAreRefusedWithAPlace() throws Exception {
        Map<String, Path> specs = specs("refused.txt");
        Map<String, String> verdicts = GeneratedCode.judge(work, List.copyOf(specs.values()), work.resolve("made"));
        List<String> accepted = new ArrayList<>();
        for (Map.Entry<String, Path> one : specs.entrySet()) {
            assertNotNull(verdicts.get(one.getKey()), "the official compiler accepts " + one.getKey());
            try {
                SpecCheck.load(one.getValue());
                accepted.add(one.getKey());
            } catch (SpecException e) {
                assertTrue(e.getMessage().startsWith(one.getKey() + ".ksy:"), e.getMessage());
            }
        }
        assertEquals(List.of(), accepted);
        assertTrue(specs.size() > 100, specs.size() + " specs");
    }
}
