package sectorglass.make.content;

import sectorglass.make.SplitMix64;
import sectorglass.make.write.Block;

/**
 * A sound of an exact size: RIFF WAVE, one channel, 16 bits, 22050 Hz, a row of triangle-wave notes. An odd size leaves one zero
 * byte behind the RIFF chunk.
 */
final class WavSound {
    private static final int HEADER = 44;
    private static final int RATE = 22050;
    private static final int NOTE = RATE / 4;

    private WavSound() {
    }

    static byte[] of(int bytes, long seed) {
        int even = bytes & ~1;
        Block out = new Block(bytes);
        out.ascii(0, "RIFF").u32(4, even - 8).ascii(8, "WAVEfmt ").u32(16, 16).u16(20, 1).u16(22, 1).u32(24, RATE)
                .u32(28, RATE * 2).u16(32, 2).u16(34, 16).ascii(36, "data").u32(40, even - HEADER);
        SplitMix64 numbers = new SplitMix64(seed);
        int period = 100;
        for (int at = HEADER, sample = 0; at < even; at += 2, sample++) {
            if (sample % NOTE == 0) {
                period = 40 + numbers.below(120);
            }
            int phase = sample % period;
            int wave = Math.abs(2 * phase - period) * 24000 / period - 12000;
            out.u16(at, wave * (NOTE - sample % NOTE) / NOTE);
        }
        return out.bytes();
    }
}
