using System.ComponentModel;
using System.Diagnostics;
using DeckLife.Diagnostics;
using DeckLife.Reporting.Notation;

namespace DeckLife.Notebooks;

/// <summary>Prints a page to PDF by a Chromium that is installed on this machine; nothing is downloaded.</summary>
public static class PdfPrinter
{
    /// <summary>Environment variable that names the browser to use.</summary>
    public const string BrowserVariable = "DECKLIFE_BROWSER";

    private static readonly string[] Names =
    [
        "chromium",
        "chromium-browser",
        "google-chrome",
        "google-chrome-stable",
        "chrome",
        "msedge",
        "microsoft-edge",
    ];

    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(60);

    /// <summary>The browser that would be used; nothing where there is none.</summary>
    public static string? FindBrowser()
    {
        var named = Environment.GetEnvironmentVariable(BrowserVariable);
        if (!string.IsNullOrEmpty(named))
        {
            return File.Exists(named) ? named : null;
        }

        var extension = OperatingSystem.IsWindows() ? ".exe" : "";
        return (Environment.GetEnvironmentVariable("PATH") ?? "")
            .Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
            .SelectMany(folder => Names.Select(n => Path.Combine(folder, n + extension)))
            .FirstOrDefault(File.Exists);
    }

    /// <summary>Prints a page.</summary>
    /// <param name="page">The page's file.</param>
    /// <param name="pdf">The PDF's file.</param>
    /// <param name="units">Units of the reader's country: A4 with SI, Letter with US customary ones.</param>
    /// <param name="cancellationToken">Ends the browser early.</param>
    /// <returns>What went wrong; nothing when the PDF was written.</returns>
    public static async Task<Diagnostic?> PrintAsync(
        string page,
        string pdf,
        UnitSystem units = UnitSystem.Si,
        CancellationToken cancellationToken = default
    )
    {
        if (FindBrowser() is not { } browser)
        {
            return DiagnosticCatalogue.NoBrowser.With(BrowserVariable);
        }

        var profile = Directory.CreateTempSubdirectory("decklife-print-");
        try
        {
            var start = new ProcessStartInfo(browser)
            {
                RedirectStandardError = true,
                RedirectStandardOutput = true,
                UseShellExecute = false,
            };
            string[] arguments =
            [
                "--headless",
                "--disable-gpu",
                "--no-first-run",
                $"--user-data-dir={profile.FullName}",
                "--host-resolver-rules=MAP * ~NOTFOUND",
                "--virtual-time-budget=15000",
                "--no-pdf-header-footer",
                // A browser refuses its own sandbox under the root account.
                .. Environment.IsPrivilegedProcess && !OperatingSystem.IsWindows()
                    ? new[] { "--no-sandbox" }
                    : [],
                $"--print-to-pdf={Path.GetFullPath(pdf)}",
                new Uri(Path.GetFullPath(page)).AbsoluteUri
                    + (units == UnitSystem.Si ? "#paper=a4" : "#paper=letter"),
            ];
            foreach (var argument in arguments)
            {
                start.ArgumentList.Add(argument);
            }

            return await RunAsync(start, pdf, cancellationToken).ConfigureAwait(false);
        }
        finally
        {
            try
            {
                profile.Delete(recursive: true);
            }
            catch (IOException)
            {
                // A browser that is still closing holds its own folder; the system clears it later.
            }
        }
    }

    private static async Task<Diagnostic?> RunAsync(
        ProcessStartInfo start,
        string pdf,
        CancellationToken cancellationToken
    )
    {
        using var process = new Process { StartInfo = start };
        try
        {
            process.Start();
        }
        catch (Win32Exception refused)
        {
            return DiagnosticCatalogue.BrowserFailed.With(start.FileName, refused.Message);
        }

        var error = process.StandardError.ReadToEndAsync(cancellationToken);
        var output = process.StandardOutput.ReadToEndAsync(cancellationToken);
        try
        {
            await process
                .WaitForExitAsync(cancellationToken)
                .WaitAsync(Limit, cancellationToken)
                .ConfigureAwait(false);
        }
        catch (TimeoutException)
        {
            process.Kill(entireProcessTree: true);
            return DiagnosticCatalogue.BrowserFailed.With(
                start.FileName,
                $"no PDF within {Limit.TotalSeconds:F0} s"
            );
        }
        catch (OperationCanceledException)
        {
            process.Kill(entireProcessTree: true);
            throw;
        }

        await output.ConfigureAwait(false);
        if (File.Exists(pdf) && new FileInfo(pdf).Length > 0)
        {
            return null;
        }

        var said = (await error.ConfigureAwait(false)).Trim();
        return DiagnosticCatalogue.BrowserFailed.With(
            start.FileName,
            said.Length > 0 ? said : $"it ended with code {process.ExitCode} and said nothing"
        );
    }
}
