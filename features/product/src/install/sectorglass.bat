@echo off
rem Sectorglass. Without arguments, or with one image alone, the window; with a command, the command.
rem SECTORGLASS_HOME holds settings and caches of the window (default: .sectorglass in the home folder); images are never written.
setlocal
set "HERE=%~dp0"
if "%HERE:~-1%"=="\" set "HERE=%HERE:~0,-1%"
set "JAVA=java"
if defined JAVA_HOME if exist "%JAVA_HOME%\bin\java.exe" set "JAVA=%JAVA_HOME%\bin\java.exe"
"%JAVA%" -version >nul 2>&1
if errorlevel 1 (
  echo Sectorglass needs Java 17 or newer, and no java was found on the path or in JAVA_HOME. 1>&2
  echo Install a Java 17 runtime, or set JAVA_HOME to the folder of one. 1>&2
  exit /b 7
)
set "MAJOR=0"
for /f "tokens=3" %%v in ('"%JAVA%" -version 2^>^&1 ^| findstr /i "version"') do for /f "delims=.-" %%m in ("%%~v") do set "MAJOR=%%m"
if %MAJOR% LSS 17 (
  echo Sectorglass needs Java 17 or newer; the java that was found is older ^(%MAJOR%^). 1>&2
  echo Install a Java 17 runtime, or set JAVA_HOME to the folder of one. 1>&2
  exit /b 7
)
if "%~1"=="" goto window
if "%~2"=="" if exist "%~1" if /i not "%~1"=="formats" if /i not "%~1"=="practice" if /i not "%~1"=="help" goto window
"%JAVA%" -XX:TieredStopAtLevel=1 -XX:+UseSerialGC -Xshare:auto -jar "%HERE%\plugins\command.path" %*
exit /b %ERRORLEVEL%

:window
set "OWN=%USERPROFILE%\.sectorglass"
if defined SECTORGLASS_HOME set "OWN=%SECTORGLASS_HOME%"
set "PLACE=%HERE::=_%"
set "PLACE=%PLACE:\=_%"
set "PLACE=%PLACE: =_%"
if not exist "%OWN%\configuration\%PLACE%" mkdir "%OWN%\configuration\%PLACE%"
if not exist "%OWN%\workspace" mkdir "%OWN%\workspace"
rem the language chosen in the preferences, if any
set "LANGUAGE="
set "KEPT=%OWN%\workspace\.metadata\.plugins\org.eclipse.core.runtime\.settings\sectorglass.workbench.prefs"
if exist "%KEPT%" for /f "tokens=2 delims==" %%l in ('findstr /r "^language=en$ ^language=de$" "%KEPT%"') do set "LANGUAGE=-nl %%l"
for %%j in ("%HERE%\plugins\org.eclipse.equinox.launcher_*.jar") do set "LAUNCHER=%%j"
"%JAVA%" -XX:+UseSerialGC -Xshare:auto -Xms48m -Xmx1g -jar "%LAUNCHER%" -nosplash %LANGUAGE% -data "%OWN%\workspace" -configuration "%OWN%\configuration\%PLACE%" %*
exit /b %ERRORLEVEL%
