package sectorglass.practice.lesson;

import java.io.BufferedReader;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.List;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;

/** The lessons of the product. */
@Component(service = LessonPack.class)
@ServiceProvider(value = LessonPack.class, resolution = Resolution.OPTIONAL)
public final class ProductLessons implements LessonPack {
    private static final String FOLDER = "/sectorglass/practice/lessons/";

    @Override
    public String name() {
        return "sectorglass.practice";
    }

    @Override
    public List<String> files() throws IOException {
        try (BufferedReader lines = new BufferedReader(new InputStreamReader(open("index"), StandardCharsets.UTF_8))) {
            return lines.lines().filter(line -> !line.isBlank()).toList();
        }
    }

    @Override
    public InputStream open(String file) throws IOException {
        InputStream in = ProductLessons.class.getResourceAsStream(FOLDER + file);
        if (in == null) {
            throw new FileNotFoundException(file);
        }
        return in;
    }
}
