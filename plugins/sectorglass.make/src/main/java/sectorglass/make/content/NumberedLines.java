package sectorglass.make.content;

import java.nio.charset.StandardCharsets;

import sectorglass.make.SplitMix64;

/** Lines of plain words, each with its number in front, so that a missing part is easily seen. */
final class NumberedLines implements FileContent.Source {
    private static final String[] WORDS = {"light", "meadow", "harbour", "morning", "lens", "tripod", "cloud", "river", "stone",
        "window", "street", "garden", "bridge", "evening", "market", "forest", "paper", "copper", "lantern", "ridge", "orchard",
        "valley", "paint", "shutter", "mirror", "field", "tower", "boat", "station", "winter", "island", "clock"};

    private final SplitMix64 numbers;
    private byte[] line = new byte[0];
    private int at;
    private int count;

    NumberedLines(long seed) {
        numbers = new SplitMix64(seed);
    }

    @Override
    public void next(byte[] into, int from, int length) {
        for (int done = 0; done < length;) {
            if (at == line.length) {
                nextLine();
            }
            int now = Math.min(length - done, line.length - at);
            System.arraycopy(line, at, into, from + done, now);
            done += now;
            at += now;
        }
    }

    private void nextLine() {
        StringBuilder text = new StringBuilder();
        String number = Integer.toString(++count);
        text.append("0".repeat(Math.max(0, 6 - number.length()))).append(number);
        for (int words = 4 + numbers.below(7); words > 0; words--) {
            text.append(' ').append(WORDS[numbers.below(WORDS.length)]);
        }
        line = text.append('\n').toString().getBytes(StandardCharsets.US_ASCII);
        at = 0;
    }
}
