namespace MicRegister.Server.Accounts;

/// <summary>
/// Slows guessing down: the delay grows with each wrong password, for an account from an address, for an address, and for an account from
/// addresses that it never came from. It never closes an account: who came in from an address before is not held up by what others guess.
/// </summary>
public sealed class GuessGuard(TimeProvider time)
{
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(15);
    private static readonly TimeSpan LongestForAccount = TimeSpan.FromSeconds(30);
    private static readonly TimeSpan Forgotten = TimeSpan.FromHours(2);
    private const int FreeForPair = 3;
    private const int FreeForAddress = 20;
    private const int FreeForAccount = 50;
    private const int MostKept = 100_000;

    private readonly Lock _door = new();
    private readonly Dictionary<string, Tries> _tries = [];
    private readonly HashSet<string> _known = [];

    /// <summary>
    /// Asks to try a password. Where it may be tried, the try counts as a wrong one until <see cref="Succeeded"/> says otherwise, so that many at once
    /// do not slip through.
    /// </summary>
    /// <returns>How long to wait; null where it may be tried now.</returns>
    public TimeSpan? Ask(string account, string address)
    {
        lock (_door)
        {
            var now = time.GetUtcNow();
            if (_tries.Count > MostKept) Forget(now);
            (string Key, int Free, TimeSpan Longest)[] keys = _known.Contains(Pair(account, address))
                ? [(Pair(account, address), FreeForPair, Longest)]
                : [(Pair(account, address), FreeForPair, Longest), ("address " + address, FreeForAddress, Longest), ("account " + Normal(account), FreeForAccount, LongestForAccount)];
            var wait = keys.Select(k => _tries.TryGetValue(k.Key, out var t) ? t.Next - now : TimeSpan.Zero).Max();
            if (wait > TimeSpan.Zero) return wait;
            foreach (var (key, free, longest) in keys)
            {
                var count = (_tries.TryGetValue(key, out var t) && now - t.Last < Forgotten ? t.Count : 0) + 1;
                var delay = count <= free ? TimeSpan.Zero : TimeSpan.FromSeconds(Math.Min(longest.TotalSeconds, Math.Pow(2, Math.Min(30, count - free))));
                _tries[key] = new(count, now, now + delay);
            }
            return null;
        }
    }

    /// <summary>The password was right: what was counted against this account from this address is forgotten.</summary>
    public void Succeeded(string account, string address)
    {
        lock (_door)
        {
            _tries.Remove(Pair(account, address));
            if (_tries.TryGetValue("address " + address, out var a)) _tries["address " + address] = a with { Count = Math.Max(0, a.Count - 1), Next = default };
            if (_tries.TryGetValue("account " + Normal(account), out var c)) _tries["account " + Normal(account)] = c with { Count = Math.Max(0, c.Count - 1), Next = default };
            if (_known.Count < MostKept) _known.Add(Pair(account, address));
        }
    }

    private void Forget(DateTimeOffset now)
    {
        foreach (var key in _tries.Where(t => now - t.Value.Last > Forgotten).Select(t => t.Key).ToList()) _tries.Remove(key);
        // Still too many: those that are not held up at the moment go.
        if (_tries.Count > MostKept) foreach (var key in _tries.Where(t => t.Value.Next <= now).Select(t => t.Key).ToList()) _tries.Remove(key);
    }

    private static string Pair(string account, string address) => $"{Normal(account)} from {address}";

    private static string Normal(string account) => Register.Devices.DeviceIdentity.Normal(account.Length > 80 ? account[..80] : account);

    private readonly record struct Tries(int Count, DateTimeOffset Last, DateTimeOffset Next);
}
