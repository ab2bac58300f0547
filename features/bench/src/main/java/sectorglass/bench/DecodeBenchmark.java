package sectorglass.bench;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;

import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FieldNode;
import sectorglass.decode.Format;
import sectorglass.decode.SpecCheck;
import sectorglass.decode.SpecException;
import sectorglass.image.Window;

/** Decoding warm: the record mix counted in field nodes, and a whole GPT. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 8, time = 1)
public class DecodeBenchmark {
    private static final int RECORDS = 1000;
    /** The mix: numbers of all widths, a magic, bytes, text, flags as bit fields, a nested structure, an enumeration, a computed value. */
    private static final String MIX = """
            meta: {id: mix, endian: le, encoding: ASCII}
            seq:
              - {id: records, type: record, repeat: eos}
            types:
              record:
                seq:
                  - {id: magic, contents: RECD}
                  - {id: number, type: u4}
                  - {id: first, type: u8}
                  - {id: count, type: u8}
                  - {id: kind, type: u1, enum: kind}
                  - {id: in_use, type: b1}
                  - {id: order, type: b3}
                  - {id: rest, type: b4}
                  - {id: links, type: u2, valid: {max: 1024}}
                  - {id: times, type: times}
                  - {id: guid, size: 16}
                  - {id: name, type: str, size: 12}
                instances:
                  last: {value: (first + count - 1).as<u8>}
              times:
                seq:
                  - {id: created, type: u8}
                  - {id: changed, type: u8}
            enums:
              kind: {0: free, 1: file, 2: folder}
            """;
    private static final int RECORD_BYTES = 72;

    private Format mix;
    private Window mixWindow;
    private Format header;
    private Format entries;
    private Window headerWindow;
    private Window entriesWindow;
    private DecodeOptions entryOptions;

    /** Loads the specs and makes the bytes. */
    @Setup
    public void make() throws SpecException {
        mix = SpecCheck.load("mix.ksy", MIX, Path.of("."));
        mixWindow = Window.ofRead(records(), 0, 512);
        Path formats = Path.of(System.getProperty("house", ".")).resolve("formats/partition");
        header = SpecCheck.load(formats.resolve("gpt_header.ksy"));
        entries = SpecCheck.load(formats.resolve("gpt_entries.ksy"));
        headerWindow = Window.ofRead(header(), 512, 512);
        entriesWindow = Window.ofRead(entries(), 1024, 512);
        entryOptions = DecodeOptions.DEFAULT.withParams(Map.of("sector_size", 512L, "entry_size", 128L, "entry_count", 128L));
        FieldNode tree = Decoder.decode(mix, mixWindow, DecodeOptions.DEFAULT);
        System.out.println("mix: " + nodes(tree) + " nodes in " + RECORDS + " records; GPT: "
                + (nodes(Decoder.decode(header, headerWindow, DecodeOptions.DEFAULT)) + nodes(Decoder.decode(entries, entriesWindow, entryOptions)))
                + " nodes");
    }

    private static int nodes(FieldNode node) {
        int count = 1;
        for (FieldNode child : node.children()) {
            count += nodes(child);
        }
        return count;
    }

    private static byte[] records() {
        ByteBuffer bytes = ByteBuffer.allocate(RECORDS * RECORD_BYTES).order(ByteOrder.LITTLE_ENDIAN);
        Random random = new Random(1);
        for (int i = 0; i < RECORDS; i++) {
            bytes.put("RECD".getBytes(StandardCharsets.US_ASCII)).putInt(i).putLong(random.nextInt()).putLong(random.nextInt(1000));
            bytes.put((byte) (i % 4)).put((byte) random.nextInt()).putShort((short) random.nextInt(1000));
            bytes.putLong(random.nextLong()).putLong(random.nextLong()).putLong(random.nextLong()).putLong(random.nextLong());
            bytes.put("a name.text ".getBytes(StandardCharsets.US_ASCII));
        }
        return bytes.array();
    }

    private static byte[] header() {
        ByteBuffer bytes = ByteBuffer.allocate(512).order(ByteOrder.LITTLE_ENDIAN);
        bytes.put("EFI PART".getBytes(StandardCharsets.US_ASCII)).putInt(0x10000).putInt(92).putInt(0x12345678).putInt(0);
        bytes.putLong(1).putLong(999_999).putLong(34).putLong(999_966).putLong(1).putLong(2).putLong(2).putInt(128).putInt(128).putInt(7);
        return bytes.array();
    }

    private static byte[] entries() {
        ByteBuffer bytes = ByteBuffer.allocate(128 * 128).order(ByteOrder.LITTLE_ENDIAN);
        for (int i = 0; i < 128; i++) {
            bytes.position(i * 128);
            bytes.putLong(0x4433ECB9EBD0A0A2L).putLong(0xC79926B7B668C087L).putLong(i + 1).putLong(~i).putLong(34 + i * 1000L)
                    .putLong(1033 + i * 1000L).putLong(0);
            bytes.put(("part " + i).getBytes(StandardCharsets.UTF_16LE));
        }
        return bytes.array();
    }

    /** 1,000 records of the mix; divide the nodes (printed at the start) by the time. */
    @Benchmark
    public FieldNode recordMix() {
        return Decoder.decode(mix, mixWindow, DecodeOptions.DEFAULT);
    }

    /** GPT header and 128 entries. */
    @Benchmark
    public Object wholeGpt() {
        FieldNode first = Decoder.decode(header, headerWindow, DecodeOptions.DEFAULT);
        FieldNode second = Decoder.decode(entries, entriesWindow, entryOptions);
        return first.state() == second.state() ? first : second;
    }

    /** Both specs of the GPT from YAML to ready, warm. */
    @Benchmark
    public Object loadGptSpecs() throws SpecException {
        Path formats = Path.of(System.getProperty("house", ".")).resolve("formats/partition");
        return SpecCheck.load(formats.resolve("gpt_header.ksy")).id() + SpecCheck.load(formats.resolve("gpt_entries.ksy")).id();
    }
}
