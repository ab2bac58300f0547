package sectorglass.fuzz;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

import com.code_intelligence.jazzer.api.FuzzedDataProvider;
import com.code_intelligence.jazzer.junit.FuzzTest;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FieldNode;
import sectorglass.decode.FieldWalk;
import sectorglass.decode.Format;
import sectorglass.decode.SpecCheck;
import sectorglass.decode.SpecException;
import sectorglass.image.ReadState;
import sectorglass.image.SectorStates;
import sectorglass.image.Window;

/** Decoding never throws, ends within its limits and keeps its fields inside the window; a spec is refused or it runs. */
class DecodeFuzzTest {
    private static final List<Format> FORMATS = formats();

    private static List<Format> formats() {
        Path folder = Path.of(System.getProperty("house", "../..")).resolve("formats");
        List<Format> formats = new ArrayList<>();
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path spec : all.filter(p -> p.toString().endsWith(".ksy")).sorted().toList()) {
                formats.add(SpecCheck.load(spec));
            }
        } catch (java.io.IOException | SpecException e) {
            throw new IllegalStateException(e);
        }
        return formats;
    }

    @FuzzTest(maxDuration = "60s")
    void shippedSpecsTakeAnyBytes(FuzzedDataProvider data) {
        Format format = FORMATS.get(data.consumeInt(0, FORMATS.size() - 1));
        Map<String, Object> params = new HashMap<>();
        for (String id : format.params()) {
            params.put(id, id.equals("folder") ? (Object) data.consumeBoolean() : (Object) data.consumeLong());
        }
        boolean hole = data.consumeBoolean();
        byte[] bytes = data.consumeRemainingAsBytes();
        run(format, window(bytes, hole), DecodeOptions.DEFAULT.withParams(params));
    }

    @FuzzTest(maxDuration = "60s")
    void anySpecIsRefusedOrRuns(FuzzedDataProvider data) {
        byte[] bytes = data.consumeBytes(256);
        String text = data.consumeRemainingAsString();
        Format format;
        try {
            format = SpecCheck.load("fuzzed.ksy", text, Path.of("target"));
        } catch (SpecException e) {
            return; // refused, with sentences
        }
        run(format, window(bytes, false), DecodeOptions.DEFAULT);
    }

    private static Window window(byte[] bytes, boolean hole) {
        if (!hole || bytes.length <= 512) {
            return Window.ofRead(bytes, 512, 512);
        }
        ReadState[] states = new ReadState[(bytes.length + 511) / 512];
        for (int i = 0; i < states.length; i++) {
            states[i] = i % 2 == 1 ? ReadState.UNREAD : ReadState.READ;
        }
        return new Window(bytes, 512, SectorStates.of(512, 1, states));
    }

    private static void run(Format format, Window window, DecodeOptions options) {
        FieldNode root = Decoder.decode(format, window, options);
        for (FieldNode node : FieldWalk.values(root)) {
            if (node.offset() < 0 || node.offset() + node.length() > window.length()) {
                throw new IllegalStateException(node.path() + " lies outside the window");
            }
            node.value();
            node.meaning();
            node.problem();
        }
    }
}
