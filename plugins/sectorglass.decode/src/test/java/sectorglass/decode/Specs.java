package sectorglass.decode;

import java.nio.file.Path;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;

import sectorglass.image.ReadState;
import sectorglass.image.SectorStates;
import sectorglass.image.Window;

/** Short ways for tests to load a spec from text and to decode bytes. */
final class Specs {

    private Specs() {
    }

    static Format load(String text) {
        try {
            return SpecCheck.load("t.ksy", text, Path.of("target"));
        } catch (SpecException e) {
            throw new AssertionError(e.getMessage(), e);
        }
    }

    /** The sentences of a wrong spec, each with file, line and column. */
    static List<String> problems(String text) {
        try {
            SpecCheck.load("t.ksy", text, Path.of("target"));
            return List.of();
        } catch (SpecException e) {
            return e.problems().stream().map(SpecProblem::toString).toList();
        }
    }

    /** Decodes bytes written as hexadecimal pairs; the window begins at image byte 1024. */
    static FieldNode decode(String spec, String hex) {
        return decode(spec, HexFormat.of().parseHex(hex.replace(" ", "")));
    }

    static FieldNode decode(String spec, byte[] bytes) {
        return Decoder.decode(load(spec), Window.ofRead(bytes, 1024, 512), DecodeOptions.DEFAULT);
    }

    /** Decodes bytes whose second 512-byte sector was not read. */
    static FieldNode decodeWithHole(String spec, byte[] bytes) {
        ReadState[] states = new ReadState[(bytes.length + 511) / 512];
        for (int i = 0; i < states.length; i++) {
            states[i] = i == 1 ? ReadState.UNREAD : ReadState.READ;
        }
        return Decoder.decode(load(spec), new Window(bytes, 1024, SectorStates.of(512, 2, states)), DecodeOptions.DEFAULT);
    }

    static DecodeOptions params(Map<String, ?> params) {
        return DecodeOptions.DEFAULT.withParams(params);
    }

    /** The node of a path. */
    static FieldNode at(FieldNode root, String path) {
        if (root.path().equals(path)) {
            return root;
        }
        for (FieldNode child : root.children()) {
            FieldNode found = at(child, path);
            if (found != null) {
                return found;
            }
        }
        return null;
    }
}
