package sectorglass.report.delivery;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.Iterator;
import java.util.List;
import java.util.Set;

import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.stream.MemoryCacheImageOutputStream;

import sectorglass.disk.Content;
import sectorglass.image.Progress;
import sectorglass.recovery.opening.FileTests;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.outcome.FileKind;
import sectorglass.recovery.outcome.Outcome;
import sectorglass.report.document.Block;

/**
 * Small pictures of a customer's pictures: only of files that were read in full and that a test opened. A picture that is too large, takes too
 * long, or has colours that the platform's decoders cannot show is left out.
 */
final class Thumbnails {
    /** Longest side, in points. */
    static final int SIDE = 160;
    /** Pictures in a report. */
    static final int MOST = 60;
    /** Files that are tried, so that a disk full of pictures that are left out costs no more. */
    private static final int MOST_TRIED = 4 * MOST;
    private static final long MOST_BYTES = 256L << 20;
    private static final long MOST_POINTS = 100_000_000;
    private static final Set<String> TYPES = Set.of("jpeg", "png", "gif");

    private final ReportInput input;
    private final Rows rows;
    private final Progress progress;

    Thumbnails(ReportInput input, Rows rows, Progress progress) {
        this.input = input;
        this.rows = rows;
        this.progress = progress;
    }

    /** The pictures in the order of the lists. */
    List<Block.Picture> find() {
        FileTests tests = FileTests.ofProviders();
        List<Block.Picture> pictures = new ArrayList<>();
        int[] tried = {0};
        rows.visit(EnumSet.of(Rows.Group.WHOLE), (index, entry, group) -> {
            progress.checkCancelled();
            Outcome outcome = input.outcomes().get(index);
            String name = outcome.tree().name(entry);
            Content content = FileKind.of(name) == FileKind.PICTURE ? outcome.files().content(entry, "") : null;
            if (content == null || content.bytes() <= 0 || content.bytes() > MOST_BYTES || !content.missing().isEmpty()) {
                return true;
            }
            TestResult test = input.test(index, entry);
            if (test == null) {
                test = tests.test(name, content, outcome.state(entry), progress);
            }
            if (test.answer() == TestResult.Answer.OPENED && test.type() != null && TYPES.contains(test.type().id())) {
                Block.Picture picture = picture(name, test.type().id(), content);
                if (picture != null) {
                    pictures.add(picture);
                }
            }
            progress.at("small pictures", pictures.size(), MOST);
            return pictures.size() < MOST && ++tried[0] < MOST_TRIED;
        });
        return pictures;
    }

    /** A small JPEG of a picture, or null where there is none. */
    private Block.Picture picture(String name, String format, Content content) {
        Iterator<ImageReader> found = ImageIO.getImageReadersByFormatName(format);
        if (!found.hasNext()) {
            return null;
        }
        ImageReader reader = found.next();
        try (PictureBytes in = new PictureBytes(content, progress)) {
            reader.setInput(in, true, true);
            int width = reader.getWidth(0);
            int height = reader.getHeight(0);
            if ((long) width * height > MOST_POINTS) {
                return null;
            }
            ImageReadParam how = reader.getDefaultReadParam();
            int step = Math.max(1, (Math.max(width, height) + 2 * SIDE - 1) / (2 * SIDE));
            how.setSourceSubsampling(step, step, 0, 0);
            BufferedImage small = reduced(reader.read(0, how));
            ByteArrayOutputStream jpeg = new ByteArrayOutputStream();
            try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(jpeg)) {
                if (!ImageIO.write(small, "jpeg", out)) {
                    return null;
                }
            }
            return new Block.Picture(name, jpeg.toByteArray(), small.getWidth(), small.getHeight());
        } catch (Progress.Stopped e) {
            throw e;
        } catch (IOException | RuntimeException | OutOfMemoryError e) {
            return null;
        } finally {
            reader.dispose();
        }
    }

    /** Means of squares of points, on white; without the platform's drawing, which may want a screen. */
    private static BufferedImage reduced(BufferedImage from) {
        int width = from.getWidth();
        int height = from.getHeight();
        double scale = Math.min(1, (double) SIDE / Math.max(width, height));
        BufferedImage to = new BufferedImage(Math.max(1, (int) Math.round(width * scale)), Math.max(1, (int) Math.round(height * scale)), BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < to.getHeight(); y++) {
            for (int x = 0; x < to.getWidth(); x++) {
                to.setRGB(x, y, mean(from, x * width / to.getWidth(), Math.max(x * width / to.getWidth() + 1, (x + 1) * width / to.getWidth()),
                        y * height / to.getHeight(), Math.max(y * height / to.getHeight() + 1, (y + 1) * height / to.getHeight())));
            }
        }
        return to;
    }

    private static int mean(BufferedImage from, int left, int right, int top, int bottom) {
        long red = 0;
        long green = 0;
        long blue = 0;
        for (int y = top; y < bottom; y++) {
            for (int x = left; x < right; x++) {
                int point = from.getRGB(x, y);
                int solid = point >>> 24;
                int white = 255 * (255 - solid);
                red += ((point >> 16 & 0xFF) * solid + white) / 255;
                green += ((point >> 8 & 0xFF) * solid + white) / 255;
                blue += ((point & 0xFF) * solid + white) / 255;
            }
        }
        int count = (right - left) * (bottom - top);
        return (int) (red / count) << 16 | (int) (green / count) << 8 | (int) (blue / count);
    }
}
