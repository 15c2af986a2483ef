namespace MicRegister.Server.Accounts;

/// <summary>
/// Slows guessing down: the delay grows with each wrong password, for an account from an address, for an address, and for an account from
/// all browsers that it never came in from. It never closes an account: a browser with a mark of an earlier sign-in is counted by itself
/// alone.
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

    /// <summary>
    /// Asks to try a password. Where it may be tried, the try counts as a wrong one until <see cref="Succeeded"/> says otherwise, so that
    /// many at once do not slip through.
    /// </summary>
    /// <param name="account">Name that is tried.</param>
    /// <param name="address">Address that it is tried from.</param>
    /// <param name="device">Mark of a browser from which that account came in before; null where it has none.</param>
    /// <returns>How long to wait; null where it may be tried now.</returns>
    public TimeSpan? Ask(string account, string address, string? device = null)
    {
        lock (_door)
        {
            var now = time.GetUtcNow();
            if (_tries.Count > MostKept) Forget(now);
            var keys = Keys(account, address, device);
            var wait = keys.Select(k => _tries.TryGetValue(k.Key, out var t) ? t.Next - now : TimeSpan.Zero).Max();
            if (wait > TimeSpan.Zero) return wait;
            foreach (var (key, free, longest) in keys)
            {
                var count = (_tries.TryGetValue(key, out var t) && now - t.Last < Forgotten ? t.Count : 0) + 1;
                var delay = count <= free
                    ? TimeSpan.Zero
                    : TimeSpan.FromSeconds(Math.Min(longest.TotalSeconds, Math.Pow(2, Math.Min(30, count - free))));
                _tries[key] = new(count, now, now + delay);
            }
            return null;
        }
    }

    /// <summary>
    /// The password was right: this try is taken back, and what was counted against this account from there is forgotten.
    /// </summary>
    public void Succeeded(string account, string address, string? device = null)
    {
        lock (_door)
        {
            var keys = Keys(account, address, device);
            _tries.Remove(keys[0].Key);
            // Of the address and the account only this one try: who knows one password must not wash away what they guess of others.
            foreach (var (key, free, longest) in keys.Skip(1))
            {
                if (_tries.TryGetValue(key, out var t))
                    _tries[key] = t with { Count = t.Count - 1, Next = t.Count - 1 <= free ? default : t.Next };
            }
        }
    }

    private static (string Key, int Free, TimeSpan Longest)[] Keys(string account, string address, string? device) => device is not null
        ? [($"{Normal(account)} at {device}", FreeForPair, Longest)]
        :
        [
            ($"{Normal(account)} from {address}", FreeForPair, Longest),
            ("address " + address, FreeForAddress, Longest),
            ("account " + Normal(account), FreeForAccount, LongestForAccount),
        ];

    private void Forget(DateTimeOffset now)
    {
        foreach (var key in _tries.Where(t => now - t.Value.Last > Forgotten).Select(t => t.Key).ToList()) _tries.Remove(key);
        if (_tries.Count <= MostKept) return;
        // Still too many: those that are not held up at the moment go.
        foreach (var key in _tries.Where(t => t.Value.Next <= now).Select(t => t.Key).ToList()) _tries.Remove(key);
    }

    private static string Normal(string account) => Register.Devices.DeviceIdentity.Normal(account.Length > 80 ? account[..80] : account);

    private readonly record struct Tries(int Count, DateTimeOffset Last, DateTimeOffset Next);
}
