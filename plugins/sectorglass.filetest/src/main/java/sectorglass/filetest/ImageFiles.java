package sectorglass.filetest;

import java.io.IOException;
import java.util.Iterator;
import java.util.List;
import java.util.zip.CRC32;

import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import com.twelvemonkeys.imageio.plugins.psd.PSDImageReaderSpi;
import com.twelvemonkeys.imageio.plugins.webp.WebPImageReaderSpi;
import org.osgi.service.component.annotations.Component;
import sectorglass.recovery.opening.FileTest;
import sectorglass.recovery.opening.FileType;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestedFile;

/**
 * Decodes pictures whole, with the decoders of the platform and, for WebP and PSD, of a library. Every row is decoded, but only every so
 * many points are kept. A warning of a decoder counts as damage; PNG files also have their checksums compared (PNG, third edition, section 5.3).
 */
@Component(service = FileTest.class)
@ServiceProvider(value = FileTest.class, resolution = Resolution.OPTIONAL)
public final class ImageFiles implements FileTest {
    private static final int WIDEST = 200_000;
    private static final long MOST_POINTS = 1L << 30;
    /** Decoders of these keep the whole picture whatever is asked for. */
    private static final long MOST_KEPT = 100_000_000;
    private static final long KEPT = 1 << 20;

    private static final FileType JPEG = FileType.of("jpeg", "JPEG", "jpg jpeg jpe jfif", 0, "\u00FF\u00D8\u00FF");
    private static final FileType PNG = FileType.of("png", "PNG", "png", 0, "\u0089PNG\r\n\u001A\n");
    private static final FileType GIF = FileType.of("gif", "GIF", "gif", 0, "GIF8");
    private static final FileType BMP = new FileType("bmp", "BMP", List.of("bmp", "dib"),
            head -> FileType.has(head, 0, "BM") && FileType.has(head, 6, "\0\0\0\0") && FileType.has(head, 16, "\0\0"));
    private static final FileType WEBP = new FileType("webp", "WebP", List.of("webp"),
            head -> FileType.has(head, 0, "RIFF") && FileType.has(head, 8, "WEBP"));
    private static final FileType PSD = FileType.of("psd", "Photoshop document", "psd", 0, "8BPS\0\u0001");

    @Override
    public List<FileType> types() {
        return List.of(JPEG, PNG, GIF, BMP, WEBP, PSD);
    }

    @Override
    public TestResult test(FileType type, TestedFile file) throws IOException {
        if (type == PNG) {
            TestResult chunks = chunks(file);
            if (chunks != null) {
                return chunks;
            }
        }
        ImageReader reader = reader(type);
        if (reader == null) {
            return TestResult.notTested("test.decoder");
        }
        TestResult result = decode(reader, file, type == WEBP || type == PSD ? MOST_KEPT : MOST_POINTS);
        return result.answer() == TestResult.Answer.OPENED && (type == BMP || type == PSD || type == WEBP) ? TestResult.sound() : result;
    }

    private static ImageReader reader(FileType type) throws IOException {
        if (type == WEBP) {
            return new WebPImageReaderSpi().createReaderInstance();
        }
        if (type == PSD) {
            return new PSDImageReaderSpi().createReaderInstance();
        }
        Iterator<ImageReader> found = ImageIO.getImageReadersByFormatName(type.id());
        return found.hasNext() ? found.next() : null;
    }

    /** Decodes the first picture of a file, or all of a GIF. */
    static TestResult decode(ImageReader reader, TestedFile file, long mostPoints) throws IOException {
        String[] warning = {null};
        try (ImageBytes in = new ImageBytes(file)) {
            reader.addIIOReadWarningListener((source, text) -> warning[0] = warning[0] == null ? text : warning[0]);
            reader.setInput(in, false, true);
            boolean animated = reader.getFormatName().equalsIgnoreCase("gif");
            for (int i = 0; i == 0 || animated && i < 10_000; i++) {
                file.checkTime();
                long width;
                long height;
                try {
                    width = reader.getWidth(i);
                    height = reader.getHeight(i);
                } catch (IndexOutOfBoundsException e) {
                    if (i > 0) {
                        break;
                    }
                    throw e;
                }
                if (width > WIDEST || height > WIDEST || width * height > mostPoints) {
                    return TestResult.notTested("test.pixels", width, height);
                }
                int step = (int) Math.max(1, Math.ceil(Math.sqrt((double) width * height / KEPT)));
                ImageReadParam how = reader.getDefaultReadParam();
                how.setSourceSubsampling(step, step, 0, 0);
                if (reader.canReadRaster()) {
                    reader.readRaster(i, how);
                } else {
                    reader.read(i, how);
                }
                if (warning[0] != null) {
                    return TestResult.damaged("test.warning", warning[0]);
                }
            }
            return TestResult.opened();
        } finally {
            reader.dispose();
        }
    }

    /** Walks over the chunks of a PNG; null where all is well. */
    private static TestResult chunks(TestedFile file) throws IOException {
        byte[] buffer = new byte[1 << 16];
        for (long at = 8; at < file.bytes();) {
            long length = file.big(at, 4);
            String name = file.text(at + 4, 4);
            if (length > file.bytes() - at - 12) {
                return TestResult.damaged("test.size", name, at);
            }
            CRC32 crc = new CRC32();
            for (long done = -4; done < length;) {
                int some = (int) Math.min(buffer.length, length - done);
                file.read(at + 8 + done, buffer, 0, some);
                crc.update(buffer, 0, some);
                done += some;
            }
            if (crc.getValue() != file.big(at + 8 + length, 4)) {
                return TestResult.damaged("test.chunk", name, at);
            }
            if (name.equals("IEND")) {
                return null;
            }
            at += 12 + length;
        }
        return TestResult.damaged("test.end");
    }
}
