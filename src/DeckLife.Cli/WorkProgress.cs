using Spectre.Console;

namespace DeckLife.Cli;

/// <summary>How far long work is: on a terminal a bar with the time left, elsewhere plain lines.</summary>
internal static class WorkProgress
{
    /// <summary>Does some work and shows how far it is.</summary>
    /// <typeparam name="T">What comes of it.</typeparam>
    /// <param name="error">Where to.</param>
    /// <param name="what">What is done, in a few words, beside the bar.</param>
    /// <param name="plain">Off a terminal: told how much of how much is done.</param>
    /// <param name="work">The work; it tells how much of how much is done.</param>
    public static async Task<T> FollowAsync<T>(
        TextWriter error,
        string what,
        Action<long, long> plain,
        Func<Action<long, long>, Task<T>> work
    )
    {
        var terminal = new AnsiConsoleOutput(error);
        if (!terminal.IsTerminal)
        {
            return await work(plain).ConfigureAwait(false);
        }

        // NO_COLOR and terminals that can't move the cursor are the console library's to notice; that results go to a file, or
        // that nothing can be typed in, keeps no bar from a terminal.
        var console = AnsiConsole.Create(
            new() { Out = terminal, Interactive = InteractionSupport.Yes }
        );
        return await console
            .Progress()
            .AutoClear(true)
            .Columns(
                new TaskDescriptionColumn(),
                new ProgressBarColumn(),
                new PercentageColumn(),
                new RemainingTimeColumn()
            )
            .StartAsync(async bars =>
            {
                var bar = bars.AddTask(Markup.Escape(what));
                return await work(
                        (done, total) =>
                        {
                            bar.MaxValue = total;
                            bar.Value = done;
                        }
                    )
                    .ConfigureAwait(false);
            })
            .ConfigureAwait(false);
    }

    /// <summary>A plain line each tenth of the work.</summary>
    /// <param name="error">Where to.</param>
    /// <param name="what">What is done, in a word.</param>
    public static Action<long, long> Tenths(TextWriter error, string what)
    {
        var gate = new Lock();
        var told = 0L;
        return (done, total) =>
        {
            lock (gate)
            {
                for (; told < 10 * done / total; told++)
                {
                    error.WriteLine(FormattableString.Invariant($"{what}: {10 * (told + 1)} %"));
                }
            }
        };
    }
}
