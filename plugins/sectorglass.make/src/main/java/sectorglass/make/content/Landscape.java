package sectorglass.make.content;

import sectorglass.make.SplitMix64;

/** A computed picture: sky, sun, two ridges and ground, with a little grain. Whole numbers only, so it is the same everywhere. */
final class Landscape {
    private final int width;
    private final int height;
    private final int grain;
    private final int skyRed;
    private final int skyGreen;
    private final int skyBlue;
    private final int sunX;
    private final int sunY;
    private final int sunRadius;
    private final int[] farRidge;
    private final int[] nearRidge;
    private final long seed;

    Landscape(int width, int height, int grain, long seed) {
        this.width = width;
        this.height = height;
        this.grain = grain;
        this.seed = seed;
        SplitMix64 numbers = new SplitMix64(seed);
        skyRed = 60 + numbers.below(120);
        skyGreen = 90 + numbers.below(100);
        skyBlue = 140 + numbers.below(100);
        sunX = numbers.below(width);
        sunY = numbers.below(height / 3 + 1);
        sunRadius = height / 12 + 2;
        farRidge = ridge(numbers, height / 2);
        nearRidge = ridge(numbers, height * 2 / 3);
    }

    private int[] ridge(SplitMix64 numbers, int base) {
        int[] line = new int[width];
        int step = Math.max(4, width / 9);
        int from = base + numbers.below(height / 8 + 1);
        for (int x = 0; x < width; x += step) {
            int to = base + numbers.below(height / 6 + 1) - height / 12;
            for (int i = 0; i < step && x + i < width; i++) {
                line[x + i] = from + (to - from) * i / step;
            }
            from = to;
        }
        return line;
    }

    int width() {
        return width;
    }

    int height() {
        return height;
    }

    /** Red, green, blue as 0xRRGGBB. */
    int pixel(int x, int y) {
        int red = skyRed + y * 40 / height;
        int green = skyGreen + y * 30 / height;
        int blue = skyBlue - y * 30 / height;
        long dx = x - sunX;
        long dy = y - sunY;
        if (dx * dx + dy * dy < (long) sunRadius * sunRadius) {
            red = 250;
            green = 240;
            blue = 180;
        }
        if (y > farRidge[x]) {
            red = red / 2;
            green = green * 2 / 3;
            blue = blue * 2 / 3;
        }
        if (y > nearRidge[x]) {
            red = 50 + y * 30 / height;
            green = 80 + (x * 7 + y * 3) % 24;
            blue = 40;
        }
        int noise = grain == 0 ? 0 : noise(x, y);
        return clip(red + noise) << 16 | clip(green + noise) << 8 | clip(blue + noise);
    }

    private int noise(int x, int y) {
        long z = seed + x * 0x9E3779B97F4A7C15L + y * 0xC2B2AE3D27D4EB4FL;
        z = (z ^ z >>> 29) * 0xBF58476D1CE4E5B9L;
        return (int) ((z >>> 40) % (2L * grain + 1)) - grain;
    }

    private static int clip(int value) {
        return Math.max(0, Math.min(255, value));
    }
}
