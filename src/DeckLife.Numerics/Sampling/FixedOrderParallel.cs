using System.Runtime.ExceptionServices;

namespace DeckLife.Numerics.Sampling;

/// <summary>
/// Runs pieces of work on several threads so that the result is the same bytes for any number of them: what a piece is
/// depends on the work alone, never on the threads, and results are kept and summed in the order of the pieces.
/// </summary>
/// <remarks>
/// What a piece throws is thrown to the caller, unwrapped: that of the first piece in order that failed. Pieces after it may be left undone.
/// Checked by: FixedOrderParallelTests (1, 2, 8 threads: same bytes).
/// </remarks>
public static class FixedOrderParallel
{
    /// <summary>Number of threads used where none is asked for: the processors of the machine.</summary>
    public static int DefaultThreads => Environment.ProcessorCount;

    /// <summary>Runs each piece once.</summary>
    /// <param name="pieces">Number of pieces, at least 0.</param>
    /// <param name="body">Does the piece of the given number; writes only what belongs to it.</param>
    /// <param name="threads">Number of threads; 0 for <see cref="DefaultThreads"/>.</param>
    /// <param name="cancellation">Stops between two pieces.</param>
    /// <exception cref="OperationCanceledException">Cancelled before all pieces were done.</exception>
    public static void Run(
        int pieces,
        Action<int> body,
        int threads = 0,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(body);
        Run(pieces, static () => 0, (_, piece) => body(piece), threads, null, cancellation);
    }

    /// <summary>Runs each piece once, each thread with a workspace of its own.</summary>
    /// <typeparam name="TWorkspace">The workspace; it must not carry a result from one piece to the next.</typeparam>
    /// <param name="pieces">Number of pieces, at least 0.</param>
    /// <param name="create">Makes a thread's workspace.</param>
    /// <param name="body">Does the piece of the given number with the thread's workspace.</param>
    /// <param name="threads">Number of threads; 0 for <see cref="DefaultThreads"/>.</param>
    /// <param name="release">Takes a thread's workspace back when the thread is done.</param>
    /// <param name="cancellation">Stops between two pieces.</param>
    /// <exception cref="OperationCanceledException">Cancelled before all pieces were done.</exception>
    public static void Run<TWorkspace>(
        int pieces,
        Func<TWorkspace> create,
        Action<TWorkspace, int> body,
        int threads = 0,
        Action<TWorkspace>? release = null,
        CancellationToken cancellation = default
    )
    {
        ArgumentOutOfRangeException.ThrowIfNegative(pieces);
        ArgumentOutOfRangeException.ThrowIfNegative(threads);
        ArgumentNullException.ThrowIfNull(create);
        ArgumentNullException.ThrowIfNull(body);
        var workers = Math.Min(threads == 0 ? DefaultThreads : threads, pieces);
        var state = new Shared(pieces);

        void Work()
        {
            var workspace = default(TWorkspace);
            var made = false;
            while (!cancellation.IsCancellationRequested)
            {
                var piece = state.Take();
                if (piece < 0)
                {
                    break;
                }

                try
                {
                    if (!made)
                    {
                        workspace = create();
                        made = true;
                    }

                    body(workspace!, piece);
                }
#pragma warning disable CA1031 // whatever a piece throws is thrown again by the caller's thread, the first piece's first
                catch (Exception exception)
#pragma warning restore CA1031
                {
                    state.Fail(piece, exception);
                }
            }

            if (made)
            {
                release?.Invoke(workspace!);
            }
        }

        if (workers <= 1)
        {
            Work();
        }
        else
        {
            var others = new Thread[workers - 1];
            for (var i = 0; i < others.Length; i++)
            {
                others[i] = new Thread(Work)
                {
                    IsBackground = true,
                    Name = "pieces in fixed order",
                };
                others[i].Start();
            }

            Work();
            foreach (var other in others)
            {
                other.Join();
            }
        }

        cancellation.ThrowIfCancellationRequested();
        state.Throw();
    }

    /// <summary>Computes each piece's result; the results come in the order of the pieces.</summary>
    /// <typeparam name="TResult">The result of a piece.</typeparam>
    /// <param name="pieces">Number of pieces, at least 0.</param>
    /// <param name="body">Computes the piece of the given number.</param>
    /// <param name="threads">Number of threads; 0 for <see cref="DefaultThreads"/>.</param>
    /// <param name="cancellation">Stops between two pieces.</param>
    /// <exception cref="OperationCanceledException">Cancelled before all pieces were done.</exception>
    public static TResult[] Map<TResult>(
        int pieces,
        Func<int, TResult> body,
        int threads = 0,
        CancellationToken cancellation = default
    )
    {
        ArgumentOutOfRangeException.ThrowIfNegative(pieces);
        ArgumentNullException.ThrowIfNull(body);
        var results = new TResult[pieces];
        Run(pieces, piece => results[piece] = body(piece), threads, cancellation);
        return results;
    }

    /// <summary>Number of chunks of a fixed size that cover a count.</summary>
    /// <param name="count">Number of items, at least 0.</param>
    /// <param name="chunkSize">Items a chunk, at least 1.</param>
    public static int ChunkCount(int count, int chunkSize)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(count);
        ArgumentOutOfRangeException.ThrowIfLessThan(chunkSize, 1);
        return (int)(((long)count + chunkSize - 1) / chunkSize);
    }

    private sealed class Shared(int pieces)
    {
        private readonly Lock _gate = new();
        private int _next;
        private int _failedPiece = int.MaxValue;
        private ExceptionDispatchInfo? _failure;

        // After a failure the pieces before it still run, so that the failure reported is always the first in order.
        public int Take()
        {
            lock (_gate)
            {
                return _next < Math.Min(pieces, _failedPiece) ? _next++ : -1;
            }
        }

        public void Fail(int piece, Exception exception)
        {
            lock (_gate)
            {
                if (piece < _failedPiece)
                {
                    _failedPiece = piece;
                    _failure = ExceptionDispatchInfo.Capture(exception);
                }
            }
        }

        public void Throw() => _failure?.Throw();
    }
}
