package sectorglass.filetest;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Random;
import java.util.zip.GZIPOutputStream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

import javax.imageio.ImageIO;

import org.apache.commons.compress.archivers.sevenz.SevenZOutputFile;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveOutputStream;
import org.apache.commons.compress.compressors.bzip2.BZip2CompressorOutputStream;
import org.apache.commons.compress.utils.SeekableInMemoryByteChannel;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.font.PDType1Font;
import org.apache.pdfbox.pdmodel.font.Standard14Fonts;
import org.apache.pdfbox.pdmodel.graphics.image.LosslessFactory;
import org.apache.poi.poifs.filesystem.POIFSFileSystem;
import org.tukaani.xz.LZMA2Options;
import org.tukaani.xz.XZOutputStream;

import sectorglass.testkit.Tool;

/** Sound files of every kind that is tested, made by libraries and utilities that know nothing of the tests. */
final class Samples {
    private final Random random = new Random(7);
    private final Path folder;
    private final Map<String, byte[]> all = new LinkedHashMap<>();

    private Samples(Path folder) {
        this.folder = folder;
    }

    private interface Maker {
        void write(OutputStream to) throws IOException;
    }

    /** Name to content; kinds whose utility is missing on this machine are absent. */
    static Map<String, byte[]> make(Path folder) throws IOException {
        Samples samples = new Samples(folder);
        samples.pictures();
        samples.documents();
        samples.archives();
        samples.database();
        samples.texts();
        samples.all.put("mail.pst", PstSample.make(new Random(5)));
        samples.all.put("clip.mp4", MediaSamples.mp4(samples.random));
        samples.all.put("sound.wav", MediaSamples.wave(samples.random));
        samples.all.put("clip.avi", MediaSamples.avi(samples.random));
        samples.all.put("clip.mkv", MediaSamples.matroska(samples.random));
        samples.all.put("sound.ogg", MediaSamples.ogg(samples.random));
        samples.all.put("sound.flac", MediaSamples.flac(samples.random));
        samples.all.put("sound.mp3", MediaSamples.mp3(samples.random));
        return samples.all;
    }

    private void put(String name, Maker maker) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        maker.write(out);
        all.put(name, out.toByteArray());
    }

    private BufferedImage picture(int width, int height) {
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D to = image.createGraphics();
        for (int i = 0; i < 400; i++) {
            to.setColor(new Color(random.nextInt(0x1000000)));
            to.fillOval(random.nextInt(width), random.nextInt(height), random.nextInt(width / 4), random.nextInt(height / 4));
        }
        to.dispose();
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                int grain = random.nextInt(12);
                image.setRGB(x, y, image.getRGB(x, y) ^ (grain << 16 | grain << 8 | grain));
            }
        }
        return image;
    }

    private void pictures() throws IOException {
        BufferedImage image = picture(640, 480);
        for (String format : new String[] {"jpg", "png", "gif", "bmp", "tiff"}) {
            put("picture." + format, out -> ImageIO.write(image, format, out));
        }
        Path png = folder.resolve("picture.png");
        Files.write(png, all.get("picture.png"));
        for (String format : new String[] {"webp", "psd"}) {
            Path to = folder.resolve("picture." + format);
            if (Tool.present("convert") && Tool.run("convert", png.toString(), to.toString()).status() == 0 && Files.size(to) > 0) {
                all.put("picture." + format, Files.readAllBytes(to));
            }
        }
    }

    private String words(int count) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < count; i++) {
            text.append(Integer.toString(random.nextInt(), 36)).append(i % 12 == 11 ? "\n" : " ");
        }
        return text.toString();
    }

    private void documents() throws IOException {
        put("letter.pdf", out -> {
            try (PDDocument document = new PDDocument()) {
                for (int i = 0; i < 12; i++) {
                    PDPage page = new PDPage();
                    document.addPage(page);
                    try (PDPageContentStream to = new PDPageContentStream(document, page)) {
                        to.beginText();
                        to.setFont(new PDType1Font(Standard14Fonts.FontName.HELVETICA), 9);
                        to.setLeading(11);
                        to.newLineAtOffset(50, 740);
                        for (String line : words(500).split("\n")) {
                            to.showText(line.strip());
                            to.newLine();
                        }
                        to.endText();
                        if (i % 4 == 0) {
                            to.drawImage(LosslessFactory.createFromImage(document, picture(90, 60)), 300, 60);
                        }
                    }
                }
                document.save(out);
            }
        });
        put("letter.docx", out -> zip(out, "[Content_Types].xml", "word/document.xml", "word/styles.xml", "docProps/core.xml"));
        put("letter.odt", out -> zip(out, "mimetype", "content.xml", "meta.xml"));
        put("letter.doc", out -> {
            try (POIFSFileSystem files = new POIFSFileSystem()) {
                files.createDocument(new java.io.ByteArrayInputStream(words(12_000).getBytes(StandardCharsets.ISO_8859_1)), "WordDocument");
                files.createDocument(new java.io.ByteArrayInputStream(words(200).getBytes(StandardCharsets.ISO_8859_1)), "1Table");
                files.writeFilesystem(out);
            }
        });
    }

    private void zip(OutputStream to, String... names) throws IOException {
        try (ZipOutputStream zip = new ZipOutputStream(to)) {
            for (String name : names) {
                byte[] bytes = name.equals("mimetype") ? "application/vnd.oasis.opendocument.text".getBytes(StandardCharsets.US_ASCII)
                        : words(8_000).getBytes(StandardCharsets.UTF_8);
                ZipEntry entry = new ZipEntry(name);
                if (name.equals("mimetype")) {
                    entry.setMethod(ZipEntry.STORED);
                    entry.setSize(bytes.length);
                    java.util.zip.CRC32 crc = new java.util.zip.CRC32();
                    crc.update(bytes);
                    entry.setCrc(crc.getValue());
                }
                zip.putNextEntry(entry);
                zip.write(bytes);
            }
        }
    }

    private void archives() throws IOException {
        byte[] text = words(20_000).getBytes(StandardCharsets.UTF_8);
        put("papers.zip", out -> zip(out, "one.txt", "two.txt", "three/four.txt"));
        put("papers.gz", out -> {
            try (OutputStream to = new GZIPOutputStream(out)) {
                to.write(text);
            }
        });
        put("papers.bz2", out -> {
            try (OutputStream to = new BZip2CompressorOutputStream(out, 1)) {
                to.write(text);
            }
        });
        put("papers.xz", out -> {
            try (OutputStream to = new XZOutputStream(out, new LZMA2Options(1))) {
                to.write(text);
            }
        });
        put("papers.tar", out -> {
            try (TarArchiveOutputStream tar = new TarArchiveOutputStream(out)) {
                for (int i = 0; i < 60; i++) {
                    TarArchiveEntry entry = new TarArchiveEntry("folder/paper " + i + ".txt");
                    entry.setSize(2000);
                    tar.putArchiveEntry(entry);
                    tar.write(text, i * 2000, 2000);
                    tar.closeArchiveEntry();
                }
            }
        });
        SeekableInMemoryByteChannel channel = new SeekableInMemoryByteChannel();
        try (SevenZOutputFile seven = new SevenZOutputFile(channel)) {
            for (int i = 0; i < 3; i++) {
                var entry = new org.apache.commons.compress.archivers.sevenz.SevenZArchiveEntry();
                entry.setName("paper " + i + ".txt");
                seven.putArchiveEntry(entry);
                seven.write(text, i * 20_000, 20_000);
                seven.closeArchiveEntry();
            }
            seven.finish();
            all.put("papers.7z", java.util.Arrays.copyOf(channel.array(), (int) channel.size()));
        }
    }

    private void database() throws IOException {
        if (!Tool.present("sqlite3")) {
            return;
        }
        Path file = folder.resolve("orders.sqlite");
        StringBuilder sql = new StringBuilder("create table orders(id integer primary key, who text, what text, sum real);create index by_who on orders(who);begin;");
        for (int i = 0; i < 1500; i++) {
            sql.append("insert into orders values(").append(i).append(",'").append(Integer.toString(random.nextInt(), 36)).append("','")
                    .append(words(i % 100 == 0 ? 900 : 6).strip()).append("',").append(random.nextDouble()).append(");");
        }
        sql.append("commit;delete from orders where id%7=3 or id between 200 and 700;");
        Path script = folder.resolve("orders.sql");
        Files.writeString(script, sql);
        Tool.run("sqlite3", file.toString(), ".read " + script).ok();
        all.put("orders.sqlite", Files.readAllBytes(file));
    }

    private void texts() {
        all.put("notes.txt", ("Gr\u00FC\u00DFe, \u4F60\u597D \u05E9\u05DC\u05D5\u05DD\n" + words(9_000)).getBytes(StandardCharsets.UTF_8));
        StringBuilder mail = new StringBuilder();
        for (int i = 0; i < 25; i++) {
            byte[] body = new byte[3000];
            random.nextBytes(body);
            mail.append("From studio@example.org Mon Jan 05 10:00:00 2026\nFrom: studio@example.org\nTo: guest").append(i)
                    .append("@example.org\nSubject: proofs\nMIME-Version: 1.0\nContent-Type: multipart/mixed; boundary=\"part").append(i)
                    .append("\"\n\n--part").append(i).append("\nContent-Type: text/plain\n\n").append(words(60)).append("\n--part").append(i)
                    .append("\nContent-Type: image/jpeg\nContent-Transfer-Encoding: base64\n\n")
                    .append(java.util.Base64.getMimeEncoder(76, new byte[] {'\n'}).encodeToString(body)).append("\n--part").append(i).append("--\n\n");
        }
        all.put("mail.mbox", mail.toString().getBytes(StandardCharsets.US_ASCII));
        all.put("mail.eml", mail.substring(mail.indexOf("\n") + 1, mail.indexOf("\nFrom studio", 10)).getBytes(StandardCharsets.US_ASCII));
    }
}
