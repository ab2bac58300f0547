package sectorglass.workbench.tests;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

import org.eclipse.core.runtime.IStatus;
import org.eclipse.core.runtime.Platform;
import org.eclipse.equinox.app.IApplication;
import org.eclipse.equinox.app.IApplicationContext;
import org.eclipse.swt.graphics.Resource;
import org.eclipse.swt.widgets.Display;
import org.eclipse.ui.PlatformUI;
import org.junit.jupiter.engine.JupiterTestEngine;
import org.junit.platform.engine.TestExecutionResult;
import org.junit.platform.engine.discovery.DiscoverySelectors;
import org.junit.platform.launcher.Launcher;
import org.junit.platform.launcher.LauncherDiscoveryRequest;
import org.junit.platform.launcher.TestExecutionListener;
import org.junit.platform.launcher.TestIdentifier;
import org.junit.platform.launcher.core.LauncherConfig;
import org.junit.platform.launcher.core.LauncherDiscoveryRequestBuilder;
import org.junit.platform.launcher.core.LauncherFactory;

import sectorglass.workbench.HouseAdvisor;

/** Opens the workbench, runs the tests on a thread beside it, closes it, and returns 0 only if every test ran and passed. */
public final class Runner implements IApplication {
    private static final List<String> LOGGED = Collections.synchronizedList(new ArrayList<>());

    private volatile int status = 2;

    /** Errors that were logged since the workbench started. */
    static List<String> logged() {
        return List.copyOf(LOGGED);
    }

    @Override
    public Object start(IApplicationContext context) {
        Platform.addLogListener((entry, plugin) -> {
            if (entry.getSeverity() == IStatus.ERROR) {
                LOGGED.add(plugin + ": " + entry.getMessage() + " " + entry.getException());
                if (entry.getException() != null) {
                    entry.getException().printStackTrace();
                }
            }
        });
        Resource.setNonDisposeHandler(error -> LOGGED.add("a resource was not disposed: " + stack(error)));
        Display display = PlatformUI.createDisplay();
        try {
            PlatformUI.createAndRunWorkbench(display, new HouseAdvisor(List.of()) {
                @Override
                public void postStartup() {
                    super.postStartup();
                    new Thread(() -> {
                        try {
                            status = run();
                        } finally {
                            display.asyncExec(() -> PlatformUI.getWorkbench().close());
                        }
                    }, "tests").start();
                }
            });
        } finally {
            display.dispose();
        }
        return status;
    }

    private static String stack(Error error) {
        StringBuilder text = new StringBuilder(String.valueOf(error.getMessage()));
        for (StackTraceElement element : error.getStackTrace()) {
            text.append("\n  at ").append(element);
        }
        return text.toString();
    }

    private static int run() {
        String only = System.getProperty("uitest.class", "");
        Class<?>[] classes = only.isEmpty() ? Suite.CLASSES : Suite.named(only);
        LauncherDiscoveryRequestBuilder request = LauncherDiscoveryRequestBuilder.request()
                .configurationParameter("junit.jupiter.execution.parallel.enabled", "false");
        for (Class<?> type : classes) {
            request.selectors(DiscoverySelectors.selectClass(type));
        }
        LauncherDiscoveryRequest built = request.build();
        LauncherConfig config = LauncherConfig.builder().enableTestEngineAutoRegistration(false)
                .enableLauncherSessionListenerAutoRegistration(false).enableLauncherDiscoveryListenerAutoRegistration(false)
                .enablePostDiscoveryFilterAutoRegistration(false).enableTestExecutionListenerAutoRegistration(false)
                .addTestEngines(new JupiterTestEngine()).build();
        Launcher launcher = LauncherFactory.create(config);
        Counting counting = new Counting();
        launcher.execute(built, counting);
        System.out.printf("Tests run: %d, Failures: %d, Errors: 0, Skipped: %d%n", counting.run, counting.failed, counting.skipped);
        return counting.run == 0 || counting.failed > 0 ? 1 : 0;
    }

    @Override
    public void stop() {
        // the workbench is closed by the tests
    }

    private static final class Counting implements TestExecutionListener {
        private int run;
        private int failed;
        private int skipped;

        @Override
        public void executionSkipped(TestIdentifier test, String reason) {
            skipped++;
        }

        @Override
        public void executionFinished(TestIdentifier test, TestExecutionResult result) {
            if (test.isTest()) {
                run++;
            }
            if (result.getStatus() == TestExecutionResult.Status.ABORTED) {
                skipped++;
            } else if (result.getStatus() == TestExecutionResult.Status.FAILED) {
                failed++;
                System.out.println("[ERROR] " + test.getDisplayName());
                result.getThrowable().ifPresent(thrown -> thrown.printStackTrace(System.out));
            }
        }
    }
}
