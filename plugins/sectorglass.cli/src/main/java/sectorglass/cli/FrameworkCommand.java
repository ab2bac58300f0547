package sectorglass.cli;

import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

import org.eclipse.equinox.app.IApplication;
import org.eclipse.equinox.app.IApplicationContext;
import org.osgi.framework.Bundle;
import org.osgi.framework.BundleContext;
import org.osgi.framework.FrameworkUtil;
import org.osgi.framework.InvalidSyntaxException;
import org.osgi.framework.ServiceReference;

import sectorglass.image.Providers;

/** The same commands inside the OSGi framework, with providers from its service registry. Scripts use {@link Main}: it starts faster. */
public final class FrameworkCommand implements IApplication {

    @Override
    public Object start(IApplicationContext context) {
        BundleContext bundle = FrameworkUtil.getBundle(FrameworkCommand.class).getBundleContext();
        Providers.source(type -> services(bundle, type));
        Map<?, ?> arguments = context.getArguments();
        String[] args = (String[]) arguments.get(IApplicationContext.APPLICATION_ARGS);
        PrintStream out = new PrintStream(System.out, false, StandardCharsets.UTF_8);
        PrintStream err = new PrintStream(System.err, true, StandardCharsets.UTF_8);
        for (Bundle each : bundle.getBundles()) {
            if (each.getState() == Bundle.INSTALLED) {
                err.println("Bundle " + each.getSymbolicName() + " cannot be used: something that it needs is missing from the installation.");
            }
        }
        return Main.run(args, out, err);
    }

    private static List<?> services(BundleContext bundle, Class<?> type) {
        try {
            List<Object> found = new ArrayList<>();
            ServiceReference<?>[] all = bundle.getAllServiceReferences(type.getName(), null);
            for (ServiceReference<?> reference : all == null ? new ServiceReference<?>[0] : all) {
                found.add(bundle.getService(reference));
            }
            return found;
        } catch (InvalidSyntaxException e) {
            throw new IllegalStateException(e);
        }
    }

    @Override
    public void stop() {
        Thread.currentThread().interrupt();
    }
}
