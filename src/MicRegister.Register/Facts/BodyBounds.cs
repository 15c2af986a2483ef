using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Globalization;
using System.Reflection;
using System.Security.Cryptography;
using System.Text;

namespace MicRegister.Register.Facts;

/// <summary>Holds what a fact says, or what is to become one, against <see cref="Bound"/>. Members are looked up once a type.</summary>
public static class BodyBounds
{
    private static readonly ConcurrentDictionary<Type, Func<object, BoundBreach?>[]> Known = new();

    /// <summary>
    /// The first member beyond its bound; null where all are within. A null is within: other rules say what may be absent.
    /// </summary>
    /// <param name="body">A record of this project, or a list of them, of texts or of numbers.</param>
    public static BoundBreach? Find(object body)
    {
        foreach (var check in Known.TryGetValue(body.GetType(), out var known) ? known : Known.GetOrAdd(body.GetType(), Checks))
        {
            if (check(body) is { } breach) return breach;
        }
        return null;
    }

    /// <summary>Whether a type is a record of this project, so that its members have bounds of their own.</summary>
    public static bool IsOurs(Type type) => type is { IsClass: true, Namespace: { } space }
        && space.StartsWith("MicRegister", StringComparison.Ordinal) && type.GetMethod("<Clone>$") is not null;

    /// <summary>Members that a text can state; what is worked out of them has no bound of its own.</summary>
    public static IEnumerable<PropertyInfo> Members(Type type) => type.GetProperties(BindingFlags.Public | BindingFlags.Instance)
        .Where(p => p.SetMethod is not null && p.GetIndexParameters().Length == 0);

    /// <summary>A hash of the kinds of facts that are known and of all that their bodies may hold.</summary>
    internal static string Fingerprint => field ??= Hash();

    private static string Hash()
    {
        var text = new StringBuilder();
        foreach (var kind in FactKinds.All)
            Describe(kind.Body, text.Append(CultureInfo.InvariantCulture, $"\n{kind.Name} {kind.Version}"), []);
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())));
    }

    private static void Describe(Type type, StringBuilder text, ImmutableHashSet<Type> within)
    {
        if (!IsOurs(type) || within.Contains(type)) return;
        foreach (var member in Members(type).OrderBy(m => m.Name, StringComparer.Ordinal))
        {
            text.Append(CultureInfo.InvariantCulture, $" {member.Name} {member.PropertyType} {Bound.Of(member.Name, member.PropertyType)}");
            Describe(Bound.ItemOf(member.PropertyType) ?? member.PropertyType, text, within.Add(type));
        }
    }

    private static Func<object, BoundBreach?>[] Checks(Type type)
    {
        if (Bound.ItemOf(type) is { } item) return List(body => body, "", Bound.Of("", type)!, item) is { } list ? [list] : [];
        return IsOurs(type) ? [.. Members(type).Select(m => Made(nameof(Member), type, m)).OfType<Func<object, BoundBreach?>>()] : [];
    }

    private static Func<object, BoundBreach?>? Made(string method, Type owner, PropertyInfo member) =>
        (Func<object, BoundBreach?>?)typeof(BodyBounds).GetMethod(method, BindingFlags.NonPublic | BindingFlags.Static)!
            .MakeGenericMethod(owner).Invoke(null, [member]);

    // Getters are bound once as delegates: a million facts are read when a register is folded anew.
    private static Func<object, BoundBreach?>? Member<TOwner>(PropertyInfo member)
        where TOwner : class
    {
        var name = char.ToLowerInvariant(member.Name[0]) + member.Name[1..];
        Func<TOwner, TValue> Getter<TValue>() => member.GetMethod!.CreateDelegate<Func<TOwner, TValue>>();
        var type = member.PropertyType;
        if (Bound.Of(member.Name, type) is not { } bound)
        {
            if (!IsOurs(type)) return null;
            var inner = Getter<object?>();
            return body => inner((TOwner)body) is { } value ? Find(value)?.Within(name) : null;
        }
        if (type == typeof(double) && Getter<double>() is var number) return body => Beyond(name, bound, number((TOwner)body));
        if (type == typeof(double?) && Getter<double?>() is var some)
            return body => some((TOwner)body) is { } n ? Beyond(name, bound, n) : null;
        if (type == typeof(int) && Getter<int>() is var whole) return body => Beyond(name, bound, whole((TOwner)body));
        if (type == typeof(int?) && Getter<int?>() is var someWhole)
            return body => someWhole((TOwner)body) is { } n ? Beyond(name, bound, n) : null;
        if (type == typeof(long) && Getter<long>() is var large) return body => Beyond(name, bound, large((TOwner)body));
        if (type == typeof(DateOnly) && Getter<DateOnly>() is var day) return body => Beyond(name, bound, day((TOwner)body));
        if (type == typeof(DateOnly?) && Getter<DateOnly?>() is var someDay)
            return body => someDay((TOwner)body) is { } d ? Beyond(name, bound, d) : null;
        if (type == typeof(string) && Getter<string?>() is var text)
            return body => text((TOwner)body) is { } t ? Beyond(name, bound, t) : null;
        var items = Getter<object?>();
        var item = Bound.ItemOf(type) ?? throw new NotSupportedException($"{typeof(TOwner).Name}.{member.Name}: a type without a check.");
        return List(body => items((TOwner)body), name, bound, item);
    }

    private static Func<object, BoundBreach?>? List(Func<object, object?> items, string name, Bound bound, Type item)
    {
        BoundBreach? Count(int count) => count > bound.Items
            ? new(name, $"{count} items", FormattableString.Invariant($"at most {bound.Items} items")) : null;
        BoundBreach? Each<T>(object body, Func<T, BoundBreach?> check)
        {
            if (items(body) is not IEnumerable<T> list) return null;
            var indexed = list as IReadOnlyList<T> ?? [.. list];
            if (Count(indexed.Count) is { } many) return many;
            for (var at = 0; at < indexed.Count; at++)
            {
                if (indexed[at] is { } one && check(one) is { } breach) return breach.Within(FormattableString.Invariant($"{name}[{at}]"));
            }
            return null;
        }

        if (item == typeof(string)) return body => Each<string>(body, t => Beyond("", bound, t));
        if (item == typeof(double)) return body => Each<double>(body, n => Beyond("", bound, n));
        if (item == typeof(int)) return body => Each<int>(body, n => Beyond("", bound, n));
        if (item == typeof(FieldValue))
        {
            return body =>
            {
                if (items(body) is not IReadOnlyDictionary<string, FieldValue> details) return null;
                if (Count(details.Count) is { } many) return many;
                foreach (var (key, value) in details)
                {
                    if (key.Length > Bound.MostOfName) return Long(name, key.Length, Bound.MostOfName);
                    if ((value.Number is { } n ? Beyond("", bound, n) : Beyond("", bound, value.Text ?? ""))
                        is { } breach) return breach.Within($"{name}.{key}");
                }
                return null;
            };
        }
        return IsOurs(item) ? body => Each<object>(body, Find) : null;
    }

    private static BoundBreach? Beyond(string name, Bound bound, double value) =>
        !(value < bound.Least) && !(value > bound.Greatest) ? null : new(name, value.ToString("R", CultureInfo.InvariantCulture),
            bound.AllowedNumber);

    private static BoundBreach? Beyond(string name, Bound bound, DateOnly value) =>
        !(value < bound.First) && !(value > bound.Last)
            ? null
            : new(name, Text(value), $"a day from {Text(bound.First)} to {Text(bound.Last)}");

    private static BoundBreach? Beyond(string name, Bound bound, string value) => !(value.Length > bound.Letters) ? null
        : Long(name, value.Length, bound.Letters!.Value);

    private static BoundBreach Long(string name, int length, int most) => new(name, FormattableString.Invariant($"{length} characters"),
        FormattableString.Invariant($"a text of at most {most} characters"));

    private static string Text(DateOnly? day) => day!.Value.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
