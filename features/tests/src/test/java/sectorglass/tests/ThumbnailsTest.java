package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import javax.imageio.ImageIO;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.testkit.Tool;

/**
 * Small pictures in the customer's report: mkfs.fat and mcopy make the card, the platform's encoder the pictures; pdfimages says what the PDF
 * holds. One picture has a failed sector, another was cut off before it was stored.
 */
class ThumbnailsTest {
    private static final Pattern DATA = Pattern.compile("<img src=\"data:image/jpeg;base64,([^\"]+)\"");

    @TempDir
    Path folder;

    private static byte[] jpeg(int width, int height, Color left, Color right) throws Exception {
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                image.setRGB(x, y, (x < width / 2 ? left : right).getRGB());
            }
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ImageIO.write(image, "jpeg", out);
        return out.toByteArray();
    }

    /** The sector that holds the second 512 bytes of a file. */
    private static int sectorOf(byte[] card, byte[] file) {
        for (int lba = 0; lba < card.length / 512; lba++) {
            if (Arrays.equals(card, lba * 512, lba * 512 + 512, file, 512, 1024)) {
                return lba;
            }
        }
        throw new AssertionError("not on the card");
    }

    private static List<BufferedImage> pictures(Path html) throws Exception {
        List<BufferedImage> pictures = new ArrayList<>();
        Matcher data = DATA.matcher(Files.readString(html));
        while (data.find()) {
            pictures.add(ImageIO.read(new ByteArrayInputStream(Base64.getDecoder().decode(data.group(1)))));
        }
        return pictures;
    }

    private static List<String> inPdf(Path pdf) {
        return Tool.run("pdfimages", "-list", pdf.toString()).ok().lines().skip(2).toList();
    }

    private static boolean near(int point, Color colour) {
        Color is = new Color(point);
        return Math.abs(is.getRed() - colour.getRed()) < 24 && Math.abs(is.getGreen() - colour.getGreen()) < 24 && Math.abs(is.getBlue() - colour.getBlue()) < 24;
    }

    @Test
    void picturesThatOpenAreShownSmallWhereAskedForAndNoOthers() throws Exception {
        Tool.require("mkfs.fat", "mcopy", "pdfimages");
        Path card = folder.resolve("card.img");
        Tool.run("mkfs.fat", "-C", "-F", "16", "-s", "1", "--invariant", card.toString(), "8192").ok();
        byte[] failed = jpeg(700, 500, Color.GREEN, Color.BLACK);
        byte[] cut = jpeg(600, 600, Color.MAGENTA, Color.CYAN);
        put(card, "WIDE.JPG", jpeg(1600, 900, Color.RED, Color.BLUE));
        put(card, "TALL.JPG", jpeg(333, 1000, Color.WHITE, Color.BLUE));
        put(card, "FAILED.JPG", failed);
        put(card, "CUT.JPG", Arrays.copyOf(cut, cut.length / 2));
        put(card, "NOTES.TXT", "no picture".getBytes(java.nio.charset.StandardCharsets.US_ASCII));
        byte[] whole = Files.readAllBytes(card);
        int bad = sectorOf(whole, failed);
        Path map = Files.writeString(folder.resolve("map.csv"),
                "first_lba,sectors,state\n0," + bad + ",read\n" + bad + ",1,failed\n" + (bad + 1) + "," + (whole.length / 512 - bad - 1) + ",read\n");

        for (List<String> test : List.of(List.<String>of(), List.of("--test"))) {
            Path to = folder.resolve("shown" + test.size());
            List<String> words = new ArrayList<>(List.of("report", card.toString(), "--read-map", map.toString(), "--to", to.toString(), "--thumbnails"));
            words.addAll(test);
            Cli run = Cli.run(words.toArray(String[]::new));
            assertEquals(0, run.status(), run.err());
            List<BufferedImage> shown = pictures(to.resolve("customer.html"));
            assertEquals(2, shown.size());
            BufferedImage wide = shown.stream().filter(p -> p.getWidth() > p.getHeight()).findFirst().orElseThrow();
            assertEquals(160, wide.getWidth());
            assertEquals(90, wide.getHeight());
            assertTrue(near(wide.getRGB(20, 45), Color.RED) && near(wide.getRGB(140, 45), Color.BLUE));
            BufferedImage tall = shown.stream().filter(p -> p.getWidth() < p.getHeight()).findFirst().orElseThrow();
            assertEquals(160, tall.getHeight());
            assertEquals(53, tall.getWidth(), 1);
            String html = Files.readString(to.resolve("customer.html"));
            assertTrue(html.contains("alt=\"WIDE.JPG\"") && html.contains("alt=\"TALL.JPG\""));
            assertFalse(html.contains("alt=\"FAILED.JPG\"") || html.contains("alt=\"CUT.JPG\""));
            assertEquals(2, inPdf(to.resolve("customer.pdf")).size());
            assertTrue(inPdf(to.resolve("customer.pdf")).stream().allMatch(line -> line.contains(" jpeg ")));
        }
        Path none = folder.resolve("none");
        assertEquals(0, Cli.run("report", card.toString(), "--read-map", map.toString(), "--to", none.toString(), "--test").status());
        assertEquals(List.of(), pictures(none.resolve("customer.html")));
        assertFalse(Files.readString(none.resolve("customer.html")).contains("<img"));
        assertEquals(List.of(), inPdf(none.resolve("customer.pdf")));
    }

    private void put(Path card, String name, byte[] bytes) throws Exception {
        Path file = Files.write(folder.resolve(name), bytes);
        Tool.run("mcopy", "-i", card.toString(), file.toString(), "::/").ok();
    }
}
