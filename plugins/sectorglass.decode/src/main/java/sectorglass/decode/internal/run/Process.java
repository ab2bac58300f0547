package sectorglass.decode.internal.run;

import java.io.ByteArrayOutputStream;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;

import io.kaitai.struct.KaitaiStream;
import sectorglass.decode.internal.run.Trouble.Cause;

/**
 * A {@code process} step.
 *
 * @param kind what it does
 * @param argument the key or number of bits, or null
 */
public record Process(Kind kind, Expr argument) {

    /** What the language knows; custom code is refused when the spec is read. */
    public enum Kind { XOR, ROL, ROR, ZLIB }

    /** The processed bytes. */
    byte[] apply(StructNode self, byte[] data) {
        Run run = self.run();
        run.made(data.length);
        return switch (kind) {
            case XOR -> xor(argument.eval(self), data);
            case ROL -> KaitaiStream.processRotateLeft(data, (int) Math.floorMod(argument.asLong(self), 8L), 1);
            case ROR -> KaitaiStream.processRotateLeft(data, (int) Math.floorMod(-argument.asLong(self), 8L), 1);
            case ZLIB -> inflate(run, data);
        };
    }

    private static byte[] xor(Object key, byte[] data) {
        if (key instanceof Long number) {
            return KaitaiStream.processXor(data, (byte) number.longValue());
        }
        byte[] bytes = Values.bytes(key);
        return bytes.length == 0 ? data : KaitaiStream.processXor(data, bytes);
    }

    private static byte[] inflate(Run run, byte[] data) {
        Inflater inflater = new Inflater();
        try {
            inflater.setInput(data);
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            byte[] block = new byte[8192];
            long may = run.mayMake();
            while (!inflater.finished()) {
                int n = inflater.inflate(block);
                if (n == 0 && (inflater.needsInput() || inflater.needsDictionary())) {
                    break;
                }
                out.write(block, 0, n);
                if (out.size() > may) {
                    run.made(out.size());
                }
            }
            run.made(out.size());
            return out.toByteArray();
        } catch (DataFormatException e) {
            throw Undecided.of(Cause.PROCESS, String.valueOf(e.getMessage()));
        } finally {
            inflater.end();
        }
    }
}
