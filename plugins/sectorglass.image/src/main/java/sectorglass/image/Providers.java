package sectorglass.image;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.ServiceLoader;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;

/**
 * The only reader of provided parts: formats, rules, map and volume providers, file tests, report parts. On the class path it asks
 * {@link ServiceLoader}; in the workbench one component installs a {@link #source} that asks the service registry. Both
 * give the same list, sorted by class name, so that results do not depend on the order of jars.
 */
public final class Providers {
    private static volatile Function<Class<?>, List<?>> source = Providers::fromClassPath;
    private static final Map<Class<?>, List<?>> FOUND = new ConcurrentHashMap<>();

    private Providers() {
    }

    /** Replaces where providers come from and forgets what was found. Called once, before the first use. */
    public static void source(Function<Class<?>, List<?>> other) {
        source = other;
        FOUND.clear();
    }

    /** All providers of a type, one instance each for the life of the program. */
    public static <T> List<T> all(Class<T> type) {
        return FOUND.computeIfAbsent(type, wanted -> sorted(source.apply(wanted))).stream().map(type::cast).toList();
    }

    private static List<?> sorted(List<?> any) {
        return any.stream().sorted(Comparator.comparing(provider -> provider.getClass().getName())).toList();
    }

    private static List<?> fromClassPath(Class<?> type) {
        return ServiceLoader.load(type, Providers.class.getClassLoader()).stream().map(ServiceLoader.Provider::get).toList();
    }
}
