using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;

namespace MicRegister.Register.Tracing;

/// <summary>The checks of one station, asked for events that come by their begin: which of them lean on a calibrator in doubt.</summary>
internal sealed class StationChecks
{
    /// <summary>The event leans on no check in doubt here.</summary>
    public const int Untouched = -1;

    private const int Open = 0;
    private const long DayMs = 86_400_000;

    private readonly CheckRecord[] _checks;
    private readonly (long From, long Until)[] _stood;
    private readonly bool[] _leans, _isBad;
    private readonly bool?[] _isGood;
    private readonly bool _areInstants;
    private readonly ProfileState? _profile;
    private readonly CheckReach _reach;
    private int _next;

    public StationChecks(
        string station, CheckRecord[] checks, (long From, long Until)[] stood, Doubt doubt, Func<CheckRecord, bool> leans,
        ProfileState? profile, CheckReach reach)
    {
        (Station, _checks, _stood, _profile, _reach) = (station, checks, stood, profile, reach);
        _leans = [.. checks.Select(k => k.IsMadeWith(doubt.Device) || leans(k))];
        _isBad = [.. checks.Select(doubt.IsBehind)];
        _isGood = new bool?[checks.Length];
        _areInstants = checks.All(k => k.Occurred.IsInstant);
    }

    public string Station { get; }

    /// <summary>How an event stands here: untouched, open, or one more than the number of the check that rescues it.</summary>
    public int StateOf(RecordedEvent e, TestTime test)
    {
        while (_next < _checks.Length && _checks[_next].Instant <= e.StartMs) _next++;
        var worst = Untouched;
        foreach (var (from, until) in _stood)
        {
            if (from >= Math.Max(e.StopMs, e.StartMs + 1) || e.StartMs >= until) continue;
            // A chain that stood there during a part of the event has its checks around that part.
            var state = StateOf(Math.Max(e.StartMs, from), Math.Min(e.StopMs, until), test);
            if (state == Open) return Open;
            worst = Math.Max(worst, state);
        }
        return worst;
    }

    private int StateOf(long from, long to, TestTime test)
    {
        var (before, after) = (-1, -1);
        if (_areInstants)
        {
            var next = _next;
            while (next < _checks.Length && _checks[next].Instant <= from) next++;
            // The last one may belong to another test than the event.
            for (var b = next - 1; b >= 0 && before < 0 && from - _checks[b].Instant <= _reach.Span.Ms; b--)
            {
                if (_reach.IsBefore(_checks[b], from, test)) before = b;
            }
            var i = next;
            while (i > 0 && _checks[i - 1].Instant >= to) i--;
            while (i < _checks.Length && _checks[i].Instant < to) i++;
            for (; i < _checks.Length && after < 0 && _checks[i].Instant - to <= _reach.Span.Ms; i++)
            {
                if (_reach.IsAfter(_checks[i], to, test)) after = i;
            }
        }
        else
        {
            // One of a bare day lies at the begin of its day, whichever moment it was made for.
            for (var i = 0; i < _checks.Length && _checks[i].Instant - to <= _reach.Span.Ms + (2 * DayMs); i++)
            {
                if (_reach.IsBefore(_checks[i], from, test)) before = i;
                if (after < 0 && _reach.IsAfter(_checks[i], to, test)) after = i;
            }
        }
        var isTouched = (before >= 0 && _isBad[before]) || (after >= 0 && _isBad[after]);
        if (!isTouched) return Untouched;
        return before >= 0 && !_leans[before] && IsGood(before) ? before + 1 : after >= 0 && !_leans[after] && IsGood(after) ? after + 1 : Open;
    }

    /// <summary>Id of the check that rescues; null where none does.</summary>
    public string? Rescue(int state) => state > Open ? _checks[state - 1].Fact.ToString() : null;

    private bool IsGood(int i) => _isGood[i] ??= Doubt.IsGood(_profile, _checks[i]);
}
