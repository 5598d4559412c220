namespace DeckLife.Numerics.Diffusion;

/// <summary>The nodes of a period put together across layers, their masses and free concentrations.</summary>
internal sealed class LayeredSection
{
    private readonly LayeredPlan _plan;
    private readonly LayeredPeriod _period;
    private readonly double[][] _layerNodes;
    private readonly int[] _firstNode; // of each piece
    private readonly int[] _cut; // index in the layer's nodes at which the piece begins
    private readonly int[] _edgePiece;
    private readonly double[] _conductance; // mobility / length
    private readonly double[] _volumeAbove;
    private readonly double[] _volumeBelow;
    private readonly Sorption[] _sorptionAbove;
    private readonly Sorption[] _sorptionBelow;
    private readonly double[] _linearMass; // mass per free concentration, where all layers are linear
    private readonly bool _isLinear;
    private readonly int _firstFree;
    private readonly int _lastFree;
    private readonly double[] _free;
    private readonly double[] _mass;
    private readonly double[] _keptFree;
    private readonly double[] _keptMass;
    private readonly double[] _clock;
    private readonly double[] _edge;
    private readonly double[] _right;
    private readonly double[] _upper;
    private readonly double[] _slope;
    private readonly double[] _step;
    private readonly double[] _storage;
    private readonly double[] _conduct;
    private double _lowest = double.PositiveInfinity;
    private double _highest = double.NegativeInfinity;

    public LayeredSection(
        LayeredPlan plan,
        LayeredPeriod period,
        double[][] layerNodes,
        double[][] contents
    )
    {
        _plan = plan;
        _period = period;
        _layerNodes = layerNodes;
        var pieces = period.Stack.Count;
        _firstNode = new int[pieces];
        _cut = new int[pieces];
        _clock = new double[pieces];
        var count = 1;
        for (var i = 0; i < pieces; i++)
        {
            var (layer, top) = period.Stack[i];
            _cut[i] = Index(layerNodes[layer], top);
            _firstNode[i] = count - 1;
            count += layerNodes[layer].Length - 1 - _cut[i];
        }

        _edgePiece = new int[count - 1];
        _conductance = new double[count - 1];
        _edge = new double[count - 1];
        _volumeAbove = new double[count];
        _volumeBelow = new double[count];
        _sorptionAbove = new Sorption[count];
        _sorptionBelow = new Sorption[count];
        _linearMass = new double[count];
        _free = new double[count];
        _mass = new double[count];
        _keptFree = new double[count];
        _keptMass = new double[count];
        _right = new double[count];
        _upper = new double[count];
        _slope = new double[count];
        _step = new double[count];
        _storage = new double[count];
        _conduct = new double[count];
        _isLinear = period.Stack.All(p => plan.Layers[p.Layer].Sorption.IsLinear);
        Assemble(contents);
        _firstFree = 0;
        if (period.Surface.Content is not null)
        {
            var (layer, position) = plan.Find(period, period.Surface.HeldDepth);
            _firstFree = NodeOf(layer, position) + 1;
        }

        _lastFree = plan.Problem.Bottom.Content is null ? count - 1 : count - 2;
        for (var j = _firstFree; j <= _lastFree; j++)
        {
            Widen(_free[j]);
        }
    }

    /// <summary>Node of a depth in a layer that has one there.</summary>
    public int NodeOf(int layer, double position)
    {
        for (var i = 0; i < _period.Stack.Count; i++)
        {
            if (_period.Stack[i].Layer == layer)
            {
                return _firstNode[i] + Index(_layerNodes[layer], position) - _cut[i];
            }
        }

        throw new InvalidOperationException("The layer is no longer there.");
    }

    /// <summary>Whether a depth of a layer is still there.</summary>
    public bool Holds(int layer, double position)
    {
        foreach (var piece in _period.Stack)
        {
            if (piece.Layer == layer)
            {
                return position >= piece.Top;
            }
        }

        return false;
    }

    /// <summary>Total content at a node, as the named layer holds it.</summary>
    public double Content(int node, int layer) => _plan.Layers[layer].Sorption.Total(_free[node]);

    /// <summary>Whether every nonlinear stage so far has been solved.</summary>
    public bool HasConverged { get; private set; } = true;

    /// <summary>Free concentrations of all nodes, from the top.</summary>
    public IReadOnlyList<double> Free() => _free;

    /// <summary>Mass of the nodes that no face holds.</summary>
    public double FreeMass()
    {
        double sum = 0;
        for (var j = _firstFree; j <= _lastFree; j++)
        {
            sum += _mass[j];
        }

        return sum;
    }

    /// <summary>Sets the increments of the layers' clocks over a step.</summary>
    public void SetClocks(double from, double to)
    {
        for (var i = 0; i < _clock.Length; i++)
        {
            var clock = _plan.Layers[_period.Stack[i].Layer].Clock;
            _clock[i] = clock(to) - clock(from);
        }

        for (var e = 0; e < _edge.Length; e++)
        {
            _edge[e] = _conductance[e] * _clock[_edgePiece[e]];
        }
    }

    public void Keep()
    {
        Array.Copy(_free, _keptFree, _free.Length);
        Array.Copy(_mass, _keptMass, _mass.Length);
    }

    public void Restore()
    {
        Array.Copy(_keptFree, _free, _free.Length);
        Array.Copy(_keptMass, _mass, _mass.Length);
    }

    /// <summary>Sets the contents of the faces; absent: no flux.</summary>
    public void SetFaces(double? surface, double? bottom)
    {
        if (surface is { } top)
        {
            var free = _sorptionBelow[0].Free(top);
            Array.Fill(_free, free, 0, _firstFree);
            Widen(free);
        }

        if (bottom is { } low)
        {
            _free[^1] = _sorptionAbove[^1].Free(low);
            Widen(_free[^1]);
        }
    }

    /// <summary>Flux into the free nodes through the faces, over the step's clocks.</summary>
    public double Inflow()
    {
        double sum = 0;
        if (_firstFree > 0 && _firstFree < _free.Length)
        {
            sum += _edge[_firstFree - 1] * (_free[_firstFree - 1] - _free[_firstFree]);
        }

        if (_lastFree == _free.Length - 2)
        {
            sum += _edge[^1] * (_free[^1] - _free[^2]);
        }

        return sum;
    }

    /// <summary>Whether all free concentrations lie within what the start and the faces have had, to 1e-5 of that range.</summary>
    public bool IsWithinRange()
    {
        var allowed = 1e-5 * (_highest - _lowest);
        for (var j = _firstFree; j <= _lastFree; j++)
        {
            if (_free[j] < _lowest - allowed || _free[j] > _highest + allowed)
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Solves mass(u) + γ K u = start × kept mass + stage × present mass for the free nodes.</summary>
    public void Solve(double gamma, double start, double stage)
    {
        if (_lastFree < _firstFree)
        {
            return;
        }

        for (var j = _firstFree; j <= _lastFree; j++)
        {
            _right[j] = (start * _keptMass[j]) + (stage * _mass[j]);
        }

        if (_isLinear)
        {
            SolveLinear(gamma);
        }
        else
        {
            SolveNewton(gamma);
        }
    }

    /// <summary>Writes the contents back to the layers, on either side of an interface as that layer holds them.</summary>
    public void StoreInto(double[][] contents)
    {
        for (var i = 0; i < _period.Stack.Count; i++)
        {
            var layer = _period.Stack[i].Layer;
            for (var k = _cut[i]; k < _layerNodes[layer].Length; k++)
            {
                contents[layer][k] = Content(_firstNode[i] + k - _cut[i], layer);
            }
        }
    }

    private static int Index(double[] nodes, double position)
    {
        var index = Array.BinarySearch(nodes, position);
        if (index >= 0)
        {
            return index;
        }

        index = ~index;
        return
            index == nodes.Length
            || (index > 0 && position - nodes[index - 1] < nodes[index] - position)
            ? index - 1
            : index;
    }

    private void Widen(double free)
    {
        _lowest = Math.Min(_lowest, free);
        _highest = Math.Max(_highest, free);
    }

    private void Assemble(double[][] contents)
    {
        for (var i = 0; i < _period.Stack.Count; i++)
        {
            var layer = _period.Stack[i].Layer;
            var nodes = _layerNodes[layer];
            var sorption = _plan.Layers[layer].Sorption;
            for (var k = _cut[i]; k < nodes.Length; k++)
            {
                var j = _firstNode[i] + k - _cut[i];
                double half;
                if (k > _cut[i])
                {
                    half = 0.5 * (nodes[k] - nodes[k - 1]);
                    _volumeAbove[j] = half;
                    _sorptionAbove[j] = sorption;
                    _mass[j] += half * contents[layer][k];
                }

                if (k < nodes.Length - 1)
                {
                    half = 0.5 * (nodes[k + 1] - nodes[k]);
                    _volumeBelow[j] = half;
                    _sorptionBelow[j] = sorption;
                    _mass[j] += half * contents[layer][k];
                    _edgePiece[j] = i;
                    _conductance[j] = 0.5 * sorption.Mobility / half;
                }
            }
        }

        _sorptionAbove[0] = _sorptionBelow[0];
        _sorptionBelow[^1] = _sorptionAbove[^1];
        for (var j = 0; j < _mass.Length; j++)
        {
            _linearMass[j] =
                (_volumeAbove[j] * _sorptionAbove[j].Slope(1))
                + (_volumeBelow[j] * _sorptionBelow[j].Slope(1));
            _free[j] = Free(j, _mass[j], 0);
        }
    }

    private double Free(int j, double mass, double start) =>
        _isLinear
            ? mass / _linearMass[j]
            : MassInversion.Solve(
                mass,
                _volumeAbove[j],
                _sorptionAbove[j],
                _volumeBelow[j],
                _sorptionBelow[j],
                start
            );

    private void SolveLinear(double gamma)
    {
        double previous = 0;
        double ratio = 0;
        for (var j = _firstFree; j <= _lastFree; j++)
        {
            var above = j > 0 ? gamma * _edge[j - 1] : 0;
            var below = j < _edge.Length ? gamma * _edge[j] : 0;
            var right = _right[j];
            if (j == _firstFree)
            {
                right += j > 0 ? above * _free[j - 1] : 0;
            }

            if (j == _lastFree && below > 0)
            {
                right += below * _free[j + 1];
            }

            var isFirst = j == _firstFree;
            var pivot = _linearMass[j] + above + below - (isFirst ? 0 : above * ratio);
            previous = (right + (isFirst ? 0 : above * previous)) / pivot;
            ratio = below / pivot;
            _upper[j] = ratio;
            _right[j] = previous;
        }

        _free[_lastFree] = _right[_lastFree];
        for (var j = _lastFree - 1; j >= _firstFree; j--)
        {
            _free[j] = _right[j] + (_upper[j] * _free[j + 1]);
        }

        for (var j = _firstFree; j <= _lastFree; j++)
        {
            _mass[j] = _linearMass[j] * _free[j];
        }
    }

    // Newton in a variable τ that is the mass where the isotherm is steep (Freundlich near 0) and, scaled, the free
    // concentration where the node's conductance outweighs its storage, so that neither derivative ever exceeds 1
    // (parametrisation as in Brenner and Cancès 2017, SIAM Journal on Numerical Analysis 55:1760-1785).
    private void SolveNewton(double gamma)
    {
        double largest = 0;
        for (var j = _firstFree; j <= _lastFree; j++)
        {
            largest = Math.Max(largest, Math.Abs(_right[j]));
        }

        for (
            var j = Math.Max(0, _firstFree - 1);
            j <= Math.Min(_free.Length - 1, _lastFree + 1);
            j++
        )
        {
            var above = j > 0 ? gamma * _edge[j - 1] : 0;
            var below = j < _edge.Length ? gamma * _edge[j] : 0;
            _conduct[j] = above + below;
            // What flows in and out of a node belongs to the scale of its balance: there rounding sets the limit.
            largest = Math.Max(largest, _conduct[j] * Math.Abs(_free[j]));
        }

        for (var iteration = 0; iteration < 100; iteration++)
        {
            double previous = 0;
            double ratio = 0;
            double imbalance = 0;
            for (var j = _firstFree; j <= _lastFree; j++)
            {
                var (massSlope, freeSlope) = ParameterSlopes(j);
                _slope[j] = freeSlope;
                _storage[j] = massSlope;
            }

            for (var j = _firstFree; j <= _lastFree; j++)
            {
                var above = j > 0 ? gamma * _edge[j - 1] : 0;
                var below = j < _edge.Length ? gamma * _edge[j] : 0;
                var residual = _right[j] - _mass[j];
                residual += j > 0 ? above * (_free[j - 1] - _free[j]) : 0;
                residual += below > 0 ? below * (_free[j + 1] - _free[j]) : 0;
                imbalance = Math.Max(imbalance, Math.Abs(residual));
                var isFirst = j == _firstFree;
                var lower = isFirst ? 0 : above * _slope[j - 1];
                var pivot = _storage[j] + ((above + below) * _slope[j]) - (lower * ratio);
                previous = (residual + (lower * previous)) / pivot;
                ratio = j < _lastFree ? below * _slope[j + 1] / pivot : 0;
                _upper[j] = ratio;
                _step[j] = previous;
            }

            if (imbalance <= 1e-14 * largest)
            {
                return;
            }

            double correction = 0;
            double change = 0;
            for (var j = _lastFree; j >= _firstFree; j--)
            {
                correction = _step[j] + (_upper[j] * correction);
                change = Math.Max(change, Math.Abs(correction));
                Shift(j, correction);
            }

            if (change <= 1e-15 * largest)
            {
                return;
            }
        }

        HasConverged = false;
    }

    // d mass/dτ and d free/dτ: τ is the mass where mass rises faster with u than the conductance, else conductance × u.
    private (double Mass, double Free) ParameterSlopes(int j)
    {
        var slope = MassSlope(j, _free[j]);
        return slope >= _conduct[j] ? (1, 1 / slope) : (slope / _conduct[j], 1 / _conduct[j]);
    }

    private void Shift(int j, double change)
    {
        var conduct = _conduct[j];
        if (MassSlope(j, _free[j]) >= conduct)
        {
            var mass = _mass[j] + change;
            var free = Free(j, mass, _free[j]);
            if (MassSlope(j, free) >= conduct)
            {
                (_mass[j], _free[j]) = (mass, free);
                return;
            }

            // Beyond the point where the two slopes meet the rest of the step is one in u.
            var turn = Turn(j, free);
            var left = mass - Mass(j, turn);
            _free[j] = turn + (left / conduct);
        }
        else
        {
            var free = _free[j] + (change / conduct);
            if (MassSlope(j, free) > conduct || (free * _free[j] < 0 && MassSlope(j, 0) > conduct))
            {
                var turn = Turn(j, _free[j]);
                var mass = Mass(j, turn) + (conduct * (free - turn));
                (_mass[j], _free[j]) = (mass, Free(j, mass, turn));
                return;
            }

            _free[j] = free;
        }

        _mass[j] = Mass(j, _free[j]);
    }

    // The u, of the sign of a u whose slope is below the conductance, at which slope and conductance are equal.
    private double Turn(int j, double gentle)
    {
        var (low, high) = (1e-300, Math.Abs(gentle));
        for (var i = 0; i < 200 && high > low * (1 + 1e-14); i++)
        {
            var middle = Math.Sqrt(low) * Math.Sqrt(high);
            if (MassSlope(j, middle) >= _conduct[j])
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return Math.CopySign(high, gentle);
    }

    private double Mass(int j, double free) =>
        (_volumeAbove[j] * _sorptionAbove[j].Total(free))
        + (_volumeBelow[j] * _sorptionBelow[j].Total(free));

    // A node at a face has no volume beyond it: 0 times the infinite slope of a Freundlich law at 0 is no number.
    private double MassSlope(int j, double free) =>
        (_volumeAbove[j] > 0 ? _volumeAbove[j] * _sorptionAbove[j].Slope(free) : 0)
        + (_volumeBelow[j] > 0 ? _volumeBelow[j] * _sorptionBelow[j].Slope(free) : 0);
}
