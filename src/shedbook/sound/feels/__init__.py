"""The feels: how swing, bass, comping, drums and ending go together, one value a feel.

Lives here: what a feel is made of (`feel`), the patterns and how they are written (`patterns`,
`shared_patterns`), one module a feel (`rows`), and all of them held against the phrase's vocabulary
(`known_feels`). May import the floors below `sound` and `sound.tables`.
"""
