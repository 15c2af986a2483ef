using MicRegister.Register.Facts;

namespace MicRegister.Register.People;

/// <summary>A person who states facts.</summary>
/// <param name="Id">Id without the word before the colon.</param>
/// <param name="Name">The name last chosen; the id where none was.</param>
public sealed record PersonState(string Id, string Name)
{
    /// <summary>The id of a person who is known by name alone, so that the same name is the same person on every register.</summary>
    public static string IdOf(string name) => FactId.HashText(System.Text.Encoding.UTF8.GetBytes("person\n" + name.Trim().ToUpperInvariant()), 12);

    internal static PersonState Fold(string id, IEnumerable<Fact> facts) =>
        facts.Aggregate(new PersonState(id, id), (state, fact) => fact.Body is PersonNamed named ? state with { Name = named.Name } : state);
}
