using DeckLife.Numerics.RootFinding;

namespace DeckLife.Numerics.Diffusion;

/// <summary>The content at one point of the material in time, with its running maximum and first crossings.</summary>
/// <remarks>Between the stored times by cubic Hermite pieces whose slopes are those of the parabola through three neighbours.</remarks>
public sealed class LayeredHistory
{
    private readonly double[] _times;
    private readonly double[] _contents;
    private readonly double[] _slopes;

    /// <summary>Makes a history.</summary>
    /// <param name="times">Times [yr], rising, at least two.</param>
    /// <param name="contents">Contents at those times.</param>
    public LayeredHistory(double[] times, double[] contents)
    {
        ArgumentNullException.ThrowIfNull(times);
        ArgumentNullException.ThrowIfNull(contents);
        if (times.Length < 2 || contents.Length != times.Length)
        {
            throw new ArgumentException(
                "A history needs at least two times and a content for each."
            );
        }

        for (var i = 1; i < times.Length; i++)
        {
            if (!(times[i] > times[i - 1]))
            {
                throw new ArgumentException("The times of a history must rise.");
            }
        }

        _times = times;
        _contents = contents;
        _slopes = new double[times.Length];
        for (var i = 0; i < times.Length; i++)
        {
            _slopes[i] = SlopeAt(i);
        }
    }

    /// <summary>Stored times [yr].</summary>
    public ReadOnlySpan<double> Times => _times;

    /// <summary>Contents at the stored times.</summary>
    public ReadOnlySpan<double> Contents => _contents;

    /// <summary>Largest content over the whole history.</summary>
    public double Maximum => RunningMaximum(_times[^1]);

    /// <summary>Content at a time within the history; the nearer end's outside it.</summary>
    /// <param name="time">Time [yr].</param>
    public double ContentAt(double time)
    {
        if (time <= _times[0])
        {
            return _contents[0];
        }

        if (time >= _times[^1])
        {
            return _contents[^1];
        }

        var index = Array.BinarySearch(_times, time);
        return index >= 0 ? _contents[index] : Interpolate(~index, time);
    }

    /// <summary>Largest content from the start to a time: under an overlay the content may peak and fall.</summary>
    /// <param name="time">Time [yr].</param>
    public double RunningMaximum(double time)
    {
        var largest = _contents[0];
        for (var i = 1; i < _times.Length && _times[i - 1] < time; i++)
        {
            var end = Math.Min(time, _times[i]);
            largest = Math.Max(largest, ContentAt(end));
            if (PeakIn(i) is { } peak && peak < end)
            {
                largest = Math.Max(largest, Interpolate(i, peak));
            }
        }

        return largest;
    }

    /// <summary>First time at which the content is at least the threshold.</summary>
    /// <param name="threshold">The threshold, in the unit of the contents.</param>
    /// <param name="time">That time; the start where the content is there already.</param>
    /// <returns>Whether it is reached within the history.</returns>
    public bool TryFirstCrossing(double threshold, out double time)
    {
        time = _times[0];
        if (_contents[0] >= threshold)
        {
            return true;
        }

        for (var i = 1; i < _times.Length; i++)
        {
            var end = _times[i];
            if (_contents[i] < threshold)
            {
                if (PeakIn(i) is not { } peak || Interpolate(i, peak) < threshold)
                {
                    continue;
                }

                end = peak;
            }

            var interval = i;
            BracketedRoot.TryFind(
                t => Interpolate(interval, t) - threshold,
                _times[i - 1],
                end,
                1e-12,
                out time
            );
            return true;
        }

        time = double.NaN;
        return false;
    }

    private double SlopeAt(int i)
    {
        var n = _times.Length;
        if (n == 2)
        {
            return (_contents[1] - _contents[0]) / (_times[1] - _times[0]);
        }

        var middle = Math.Clamp(i, 1, n - 2);
        var (before, after) = (
            _times[middle] - _times[middle - 1],
            _times[middle + 1] - _times[middle]
        );
        var (first, second) = (
            (_contents[middle] - _contents[middle - 1]) / before,
            (_contents[middle + 1] - _contents[middle]) / after
        );
        var curvature = (second - first) / (before + after);
        return i < middle ? first - (curvature * before)
            : i > middle ? second + (curvature * after)
            : ((first * after) + (second * before)) / (before + after);
    }

    private double Interpolate(int i, double time)
    {
        var width = _times[i] - _times[i - 1];
        var s = (time - _times[i - 1]) / width;
        var r = 1 - s;
        return (_contents[i - 1] * r * r * (1 + (2 * s)))
            + (_contents[i] * s * s * (1 + (2 * r)))
            + (width * s * r * ((_slopes[i - 1] * r) - (_slopes[i] * s)));
    }

    // The inner maximum of the cubic between two stored times, where the content rises at the first and falls at the second.
    private double? PeakIn(int i)
    {
        var (a, b) = (_slopes[i - 1], _slopes[i]);
        if (!(a > 0 && b < 0))
        {
            return null;
        }

        var width = _times[i] - _times[i - 1];
        var mean = (_contents[i] - _contents[i - 1]) / width;
        // Slope of the cubic: a + 2 p s + 3 q s², s in [0, 1].
        var p = (3 * mean) - (2 * a) - b;
        var q = a + b - (2 * mean);
        var root = Math.Sqrt(Math.Max(0, (p * p) - (3 * q * a)));
        var s = -a / (p - root);
        return s is > 0 and < 1 ? _times[i - 1] + (s * width) : null;
    }
}
