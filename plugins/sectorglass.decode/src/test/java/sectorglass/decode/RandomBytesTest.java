package sectorglass.decode;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.ShrinkingMode;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.opentest4j.TestAbortedException;

import sectorglass.image.ReadState;
import sectorglass.image.SectorStates;
import sectorglass.image.Window;
import sectorglass.testkit.Corpus;

/** Whatever the bytes: decoding ends, nothing is thrown, every field lies in the window, fields of a structure lie in it. */
class RandomBytesTest {
    private static final String NESTED = """
            meta: {id: t, endian: le, encoding: UTF-8}
            seq:
              - {id: n, type: u1}
              - {id: list, type: item, repeat: expr, repeat-expr: n}
              - {id: rest, type: item, repeat: eos}
            types:
              item:
                seq:
                  - {id: size, type: u1}
                  - {id: flags, type: b3}
                  - {id: more, type: b13}
                  - {id: body, type: {switch-on: size % 4, cases: {0: text, 1: numbers, 2: item}}, size: size}
                instances:
                  first: {pos: size, type: u2, if: flags == 1}
                  sum: {value: size * more / (flags - 1)}
              text:
                seq:
                  - {id: name, type: strz, eos-error: false}
                  - {id: padded, size: 4, pad-right: 0x20, terminator: 0}
              numbers:
                seq:
                  - {id: all, type: u2, repeat: until, repeat-until: _ == 0 or _io.eof}
                  - {id: real, type: f4}
            """;
    private static final Format FORMAT = Specs.load(NESTED);
    private static final List<Format> SUITE = suite();

    private static List<Format> suite() {
        List<Format> formats = new ArrayList<>();
        try {
            for (Path spec : Corpus.files("ksy-language/formats", ".ksy")) {
                if (SpecCheck.check(spec).isEmpty()) {
                    formats.add(SpecCheck.load(spec));
                }
            }
        } catch (TestAbortedException e) {
            return List.of(FORMAT); // no corpus: the property runs over the own spec alone
        } catch (SpecException e) {
            throw new AssertionError(e);
        }
        return formats;
    }

    @Property(tries = 1000)
    void fieldsOfAStructureLieInIt(@ForAll @Size(max = 700) byte[] bytes, @ForAll boolean hole) {
        FieldNode root = decode(FORMAT, bytes, hole);
        inside(root, 0, bytes.length);
    }

    @Property(tries = 2000, shrinking = ShrinkingMode.BOUNDED)
    void everySpecOfTheSuiteTakesAnyBytes(@ForAll @IntRange(max = 100_000) int which, @ForAll @Size(max = 300) byte[] bytes) {
        FieldNode root = decode(SUITE.get(which % SUITE.size()), bytes, false);
        for (FieldNode node : FieldWalk.values(root)) {
            assertTrue(node.offset() >= 0 && node.offset() + node.length() <= bytes.length, () -> node.path() + " lies outside");
            node.value();
            node.meaning();
            node.problem();
        }
    }

    private static FieldNode decode(Format format, byte[] bytes, boolean hole) {
        Window window = Window.ofRead(bytes, 0, 512);
        if (hole && bytes.length > 512) {
            window = new Window(bytes, 0, SectorStates.of(512, 0, ReadState.READ, ReadState.UNREAD));
        }
        return Decoder.decode(format, window, DecodeOptions.DEFAULT);
    }

    private static void inside(FieldNode node, long from, long to) {
        assertTrue(node.offset() >= from && node.offset() + node.length() <= to,
                () -> node.path() + " at " + node.offset() + ", " + node.length() + " bytes, lies outside " + from + " to " + to);
        boolean sequence = node.kind() == FieldNode.Kind.STRUCT;
        for (FieldNode child : node.children()) {
            if (sequence && child.id().equals("first")) {
                inside(child, 0, to); // an instance lies in the stream of its structure
            } else {
                inside(child, node.offset(), node.offset() + node.length());
            }
        }
    }
}
